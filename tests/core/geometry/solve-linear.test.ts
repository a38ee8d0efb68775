import { expect, test } from 'vitest'
import { solveLinear } from '#core/geometry/solve-linear'

test('three equations are solved as by hand, although the first has no first unknown', () => {
  // y + z = 5, x + y = 3, x + y + z = 6: x = 1, y = 2, z = 3.
  expect(
    solveLinear([
      [0, 1, 1, 5],
      [1, 1, 0, 3],
      [1, 1, 1, 6],
    ]),
  ).toEqual([1, 2, 3])
})

test('equations that say the same twice settle nothing', () => {
  expect(
    solveLinear([
      [1, 2, 3],
      [2, 4, 6],
    ]),
  ).toBeUndefined()
})
