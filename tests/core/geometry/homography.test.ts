import { expect, test } from 'vitest'
import fc from 'fast-check'
import {
  composed,
  inverted,
  mapped,
  scaling,
  translation,
} from '#core/geometry/homography'
import { anyHomography, anyPoint } from './any-homography'

test('a move moves, an enlargement enlarges', () => {
  expect(mapped(translation(3, -2), { x: 10, y: 10 })).toEqual({ x: 13, y: 8 })
  expect(mapped(scaling(2, 3), { x: 10, y: 10 })).toEqual({ x: 20, y: 30 })
})

test('a tilt brings nearer what is farther: the middle of a side moves by less than half', () => {
  // By hand: x' = x / (1 + x / 100), so 100 goes to 50 and 50 to 33 1/3.
  const tilt = [1, 0, 0, 0, 1, 0, 0.01, 0, 1] as const
  expect(mapped(tilt, { x: 100, y: 0 }).x).toBeCloseTo(50, 12)
  expect(mapped(tilt, { x: 50, y: 0 }).x).toBeCloseTo(100 / 3, 12)
})

test('one map after another is the two composed', () => {
  fc.assert(
    fc.property(anyHomography, anyHomography, anyPoint, (one, two, point) => {
      const both = mapped(composed(two, one), point)
      const inTurn = mapped(two, mapped(one, point))
      expect(both.x).toBeCloseTo(inTurn.x, 4)
      expect(both.y).toBeCloseTo(inTurn.y, 4)
    }),
  )
})

test('a map and its inverse lead back', () => {
  fc.assert(
    fc.property(anyHomography, anyPoint, (homography, point) => {
      const back = mapped(inverted(homography), mapped(homography, point))
      expect(back.x).toBeCloseTo(point.x, 4)
      expect(back.y).toBeCloseTo(point.y, 4)
    }),
  )
})

test('what presses the picture flat cannot be undone', () => {
  expect(() => inverted([1, 0, 0, 2, 0, 0, 0, 0, 1])).toThrow(RangeError)
})
