import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { commonCrop } from '#core/geometry/common-crop'
import {
  type Homography,
  identity,
  inverted,
  mapped,
  scaling,
  translation,
} from '#core/geometry/homography'
import { anyHomography } from './any-homography'

const size = { width: 1440, height: 1080 }

describe('what both photos show', () => {
  test('is the whole when they lie on each other', () => {
    expectCrop(commonCrop(identity, size, size), [0, 0, 1440, 1080])
  })

  test('is what a move leaves', () => {
    expectCrop(
      commonCrop(translation(100, -50), size, size),
      [100, 0, 1340, 1030],
    )
  })

  test('is the smaller photo within the larger one', () => {
    expectCrop(commonCrop(scaling(0.5), size, size), [0, 0, 720, 540])
  })

  test('is nothing when they lie beside each other', () => {
    expect(commonCrop(translation(1500, 0), size, size)).toBeUndefined()
  })

  test('is nothing when a corner goes beyond the horizon', () => {
    expect(
      commonCrop([1, 0, 0, 0, 1, 0, -0.001, 0, 1], size, size),
    ).toBeUndefined()
  })

  test('of a square turned by an eighth of a turn is the square in its middle', () => {
    // A diamond with half diagonals 100 holds at most an upright rectangle of 100 x 100, a known result.
    const half = Math.SQRT1_2
    const diamond: Homography = [half, -half, 500, half, half, 400, 0, 0, 1]
    const side = 100 * Math.SQRT2
    const crop = commonCrop(diamond, size, { width: side, height: side })
    expectCrop(crop, [450, 450, 100, 100])
  })
})

test('lies in both photos, and no rectangle of a coarse trial is larger', () => {
  fc.assert(
    fc.property(anyHomography, (homography) => {
      const crop = commonCrop(homography, size, size)
      if (crop === undefined) return
      expect(liesIn(crop, homography, 1e-3)).toBe(true)
      const area = crop.width * crop.height
      for (const left of steps(size.width)) {
        for (const right of steps(size.width)) {
          for (const top of steps(size.height)) {
            for (const bottom of steps(size.height)) {
              const tried = {
                left,
                top,
                width: right - left,
                height: bottom - top,
              }
              if (tried.width * tried.height <= area * 1.0001) continue
              if (tried.width <= 0 || tried.height <= 0) continue
              expect(liesIn(tried, homography, 0)).toBe(false)
            }
          }
        }
      }
    }),
    { numRuns: 20 },
  )
})

function steps(length: number): readonly number[] {
  return [0, 1, 2, 3, 4, 5, 6, 7, 8].map((step) => (step * length) / 8)
}

/** Whether the corners, taken back, lie in the after, and so, as it is convex, the whole. */
function liesIn(
  {
    left,
    top,
    width,
    height,
  }: {
    readonly left: number
    readonly top: number
    readonly width: number
    readonly height: number
  },
  homography: Homography,
  leeway: number,
): boolean {
  const back = inverted(homography)
  return [
    { x: left, y: top },
    { x: left + width, y: top },
    { x: left, y: top + height },
    { x: left + width, y: top + height },
  ].every((corner) => {
    const { x, y } = mapped(back, corner)
    return (
      x >= -leeway &&
      y >= -leeway &&
      x <= size.width + leeway &&
      y <= size.height + leeway &&
      corner.x >= -leeway &&
      corner.y >= -leeway &&
      corner.x <= size.width + leeway &&
      corner.y <= size.height + leeway
    )
  })
}

function expectCrop(
  crop: ReturnType<typeof commonCrop>,
  [left, top, width, height]: readonly [number, number, number, number],
): void {
  expect(crop?.left).toBeCloseTo(left, 1)
  expect(crop?.top).toBeCloseTo(top, 1)
  expect(crop?.width).toBeCloseTo(width, 1)
  expect(crop?.height).toBeCloseTo(height, 1)
}
