import fc from 'fast-check'
import { expect, test } from 'vitest'
import { filmFactor } from '#core/drying/film-factor'

test('a thin coat never dries in less than the label’s time', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-6, max: 10, noNaN: true }),
      fc.constantFrom('recoat', 'sand', 'handle'),
      (ratio, purpose) => {
        expect(filmFactor(ratio, purpose)).toBeGreaterThanOrEqual(1)
      },
    ),
  )
})

test('twice the film takes at least twice the time', () => {
  for (const purpose of ['recoat', 'sand', 'handle'] as const)
    expect(filmFactor(2, purpose)).toBeGreaterThanOrEqual(2)
})

test.each([0, -1, NaN, Infinity])('a film of %d is refused', (ratio) => {
  expect(() => filmFactor(ratio, 'recoat')).toThrow(RangeError)
})
