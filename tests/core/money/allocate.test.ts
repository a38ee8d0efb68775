import fc from 'fast-check'
import { expect, test } from 'vitest'
import { allocate } from '#core/money/allocate'
import { fractionOf } from '#core/money/fraction'

const weights = (...values: readonly number[]) => values.map(fractionOf)

test('a pound for three is 34, 33 and 33', () => {
  expect(allocate(100, weights(1, 1, 1))).toEqual([34, 33, 33])
})

// The textbook case of largest remainders: 10 seats, votes 47, 16, 15.8, 12, 6.1, 3.1 (in thousands): 5, 2, 1, 1, 1, 0.
test('ten seats by the method of largest remainders', () => {
  expect(allocate(10, weights(47, 16, 15.8, 12, 6.1, 3.1))).toEqual([
    5, 2, 1, 1, 1, 0,
  ])
})

test('a loss is shared out as a gain is', () => {
  expect(allocate(-100, weights(1, 1, 1))).toEqual([-34, -33, -33])
})

test('without weights all get alike, and nobody gets what is nobody’s', () => {
  expect(allocate(5, weights(0, 0))).toEqual([3, 2])
  expect(allocate(5, [])).toEqual([])
})

test.each([[1.5], [NaN], [2 ** 60]])('%d cannot be shared out', (total) => {
  expect(() => allocate(total, weights(1))).toThrow(RangeError)
})

test('a weight below zero is a mistake', () => {
  expect(() => allocate(1, weights(-1, 2))).toThrow(RangeError)
})

const anyWeights = fc.array(
  fc.integer({ min: 0, max: 1000 }).map((value) => value / 8),
  { minLength: 1, maxLength: 8 },
)

test('the parts add up to the cent, and each is less than one from its share', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -1_000_000, max: 1_000_000 }),
      anyWeights,
      (total, values) => {
        const parts = allocate(total, weights(...values))
        expect(parts.reduce((sum, part) => sum + part, 0)).toBe(total)
        const sum = values.reduce((all, value) => all + value, 0)
        parts.forEach((part, index) => {
          const share =
            sum === 0
              ? total / values.length
              : (total * (values[index] ?? 0)) / sum
          expect(Math.abs(part - share)).toBeLessThan(1 + 1e-6)
        })
      },
    ),
  )
})
