import { expect, test } from 'vitest'
import { turnedSize } from '#core/photos/turned-size'

test.each([
  [0, 400, 300],
  [1, 300, 400],
  [2, 400, 300],
  [3, 300, 400],
])('%i quarter turns of 400 by 300', (turns, width, height) => {
  expect(turnedSize({ width: 400, height: 300 }, turns)).toEqual({
    width,
    height,
  })
})
