import { describe, expect, test } from 'vitest'
import { cornerError } from '#core/geometry/corner-error'
import { mapped } from '#core/geometry/homography'
import {
  type HandPoints,
  handDoubtSentence,
  mapByHand,
  startPoints,
  turnedPoints,
} from '#core/pairs/hand-points'
import { demoSize, readTruePairs } from '../../../lib/commands/true-pairs'

const size = demoSize
type Four = HandPoints['before']

function four(...points: readonly (readonly [number, number])[]): Four {
  const [a, b, c, d] = points.map(([x, y]) => ({ x, y }))
  if (!a || !b || !c || !d) throw new RangeError('four: expected four')
  return [a, b, c, d]
}

const corners = four([200, 200], [1200, 200], [1200, 900], [200, 900])

describe('four points on each photo', () => {
  test.each(readTruePairs())(
    'lay the after of $pair on its before as the renderer’s cameras do',
    ({ truth }) => {
      const before = four(
        ...corners.map((point) => {
          const { x, y } = mapped(truth, point)
          return [x, y] as const
        }),
      )
      const laid = mapByHand({ before, after: corners }, size, size)
      expect(laid).toHaveProperty('homography')
      if (!('homography' in laid)) return
      expect(cornerError(laid.homography, truth, size)).toBeLessThan(1e-6)
    },
  )

  test('stand at first where the computed map takes them', () => {
    for (const { truth } of readTruePairs()) {
      const points = startPoints(size, size, truth)
      for (const [index, point] of points.after.entries()) {
        const there = mapped(truth, point)
        expect(there.x).toBeCloseTo(points.before[index]?.x ?? NaN, 6)
        expect(there.y).toBeCloseTo(points.before[index]?.y ?? NaN, 6)
      }
      const laid = mapByHand(points, size, size)
      if (!('homography' in laid)) throw new Error(laid.doubt)
      expect(cornerError(laid.homography, truth, size)).toBeLessThan(1e-6)
    }
  })

  test('stay on the same places when a photo is turned, and lay it as before', () => {
    const points = {
      before: corners,
      after: four([250, 180], [1210, 240], [1190, 930], [180, 880]),
    }
    const then = mapByHand(points, size, size)
    if (!('homography' in then)) throw new Error(then.doubt)
    // The after a quarter clockwise: what was at its upper left is now at its upper right.
    const once = turnedPoints(
      points,
      { before: size, after: size },
      { before: 0, after: 1 },
    )
    expect(once.before).toEqual(points.before)
    expect(once.after[0]).toEqual({ x: size.height - 180, y: 250 })
    const upright = { width: size.height, height: size.width }
    const laid = mapByHand(once, size, upright)
    if (!('homography' in laid)) throw new Error(laid.doubt)
    const place = mapped(laid.homography, { x: size.height - 500, y: 700 })
    const wanted = mapped(then.homography, { x: 700, y: 500 })
    expect(place.x).toBeCloseTo(wanted.x, 6)
    expect(place.y).toBeCloseTo(wanted.y, 6)
    // And back.
    expect(
      turnedPoints(
        once,
        { before: size, after: upright },
        { before: 4, after: -1 },
      ),
    ).toEqual(points)
  })

  test('stand at the same shares of photos that lie as they are', () => {
    const points = startPoints(size, { width: 3000, height: 4000 })
    expect(points.before[0].x / size.width).toBeCloseTo(0.15, 3)
    expect(points.after[0].x / 3000).toBeCloseTo(0.15, 3)
    expect(points.after[2].y / 4000).toBeCloseTo(0.85, 3)
  })

  test.each([
    ['outside', four([-1, 200], [1200, 200], [1200, 900], [200, 900])],
    ['in-line', four([200, 200], [700, 201], [1200, 200], [200, 900])],
    ['in-line', four([200, 200], [200, 200], [1200, 900], [200, 900])],
    ['another-order', four([1200, 200], [200, 200], [200, 900], [1200, 900])],
    ['another-order', four([200, 200], [1200, 900], [1200, 200], [200, 900])],
  ] as const)('are refused as %s', (doubt, after) => {
    expect(mapByHand({ before: corners, after }, size, size)).toEqual({ doubt })
    expect(handDoubtSentence(doubt)).toMatch(/\.$/)
  })

  test('are refused where next to nothing would be left to show', () => {
    const before = four([600, 400], [800, 400], [800, 540], [600, 540])
    expect(mapByHand({ before, after: corners }, size, size)).toEqual({
      doubt: 'little-shared',
    })
  })
})
