import fc from 'fast-check'
import { expect, test } from 'vitest'
import { grainSize } from '#core/finish/grain-size'

test('a finer grade never has coarser grains', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 8, max: 5000 }),
      fc.integer({ min: 0, max: 500 }),
      (grade, finer) => {
        expect(grainSize(grade + finer)).toBeLessThanOrEqual(grainSize(grade))
      },
    ),
  )
})

test('a grade that no standard lists lies between its neighbours', () => {
  expect(grainSize(90)).toBeLessThan(grainSize(80))
  expect(grainSize(90)).toBeGreaterThan(grainSize(100))
})

test('a grade below the coarsest or above the finest is taken for the last that is listed', () => {
  expect(grainSize(8)).toBe(grainSize(12))
  expect(grainSize(5000)).toBe(grainSize(2500))
})

test('there is no grade of nothing', () => {
  expect(() => grainSize(0)).toThrow(RangeError)
})
