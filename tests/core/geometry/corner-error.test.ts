import { expect, test } from 'vitest'
import { cornerError } from '#core/geometry/corner-error'
import { identity, scaling, translation } from '#core/geometry/homography'

const size = { width: 300, height: 400 }

test('a move by 3 across and 4 down takes every corner 5 pixels away', () => {
  expect(cornerError(translation(3, 4), identity, size)).toBe(5)
})

test('twice the size leaves one corner and takes the others by the sides and the diagonal', () => {
  expect(cornerError(scaling(2), identity, size)).toBe(
    (0 + 300 + 500 + 400) / 4,
  )
})
