// The renderer of the demo photos wrote both the corners and the homographies (prisma/demo/pairs.json): its own linear
// algebra, so a check from outside. Rounding: corners to 0.01 pixels.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fitMap } from '#core/geometry/fit-map'
import { type Homography, mapped } from '#core/geometry/homography'
import { anyHomography, anyPoint } from './any-homography'
import { readTruePairs } from '../../../lib/commands/true-pairs'

describe('a homography through the corners of the demo’s furniture', () => {
  test.each(readTruePairs())('is the renderer’s own: $pair', (pair) => {
    const matches = pair.afterPoints.map((from, index) => ({
      from,
      to: pair.beforePoints[index] ?? from,
    }))
    const fitted = fitMap(matches, 'homography')
    expect(fitted).toBeDefined()
    for (const { from } of matches) {
      const ours = mapped(fitted ?? pair.truth, from)
      const theirs = mapped(pair.truth, from)
      expect(Math.hypot(ours.x - theirs.x, ours.y - theirs.y)).toBeLessThan(0.3)
    }
  })
})

test('exact matches give the map they were made by', () => {
  fc.assert(
    fc.property(anyHomography, anyPoint, (homography, point) => {
      const matches = [
        { x: 0, y: 0 },
        { x: 1440, y: 10 },
        { x: 1400, y: 1080 },
        { x: 30, y: 1000 },
        { x: 700, y: 400 },
      ].map((from) => ({ from, to: mapped(homography, from) }))
      const fitted = fitMap(matches, 'homography')
      const there = mapped(fitted ?? [0, 0, 0, 0, 0, 0, 0, 0, 1], point)
      const wanted = mapped(homography, point)
      expect(there.x).toBeCloseTo(wanted.x, 3)
      expect(there.y).toBeCloseTo(wanted.y, 3)
    }),
  )
})

test('a quarter turn about the origin and twice the size is a similarity', () => {
  const fitted = fitMap(
    [
      { from: { x: 1, y: 0 }, to: { x: 0, y: 2 } },
      { from: { x: 0, y: 1 }, to: { x: -2, y: 0 } },
      { from: { x: 0, y: 0 }, to: { x: 0, y: 0 } },
    ],
    'similarity',
  )
  expectMap(fitted, [0, -2, 0, 2, 0, 0, 0, 0, 1])
})

test('a move is the weighted mean of the moves', () => {
  const origin = { x: 0, y: 0 }
  const fitted = fitMap(
    [
      { from: origin, to: { x: 4, y: 0 }, weight: 3 },
      { from: origin, to: { x: 0, y: 8 }, weight: 1 },
    ],
    'translation',
  )
  expectMap(fitted, [1, 0, 3, 0, 1, 2, 0, 0, 1])
})

test('too few matches, or matches in one line, settle no homography', () => {
  const line = [0, 1, 2, 3, 4].map((at) => ({
    from: { x: at, y: at },
    to: { x: at, y: at },
  }))
  expect(fitMap(line.slice(0, 3), 'homography')).toBeUndefined()
  expect(fitMap(line, 'homography')).toBeUndefined()
})

function expectMap(fitted: Homography | undefined, wanted: Homography): void {
  expect(fitted).toBeDefined()
  for (const [index, value] of wanted.entries()) {
    expect(fitted?.[index]).toBeCloseTo(value, 9)
  }
}
