import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type GreyPicture,
  calmestCorner,
  gradientEnergy,
} from '#core/sheets/calmness'

function picture(
  width: number,
  height: number,
  grey: (x: number, y: number) => number,
): GreyPicture {
  const data = Uint8Array.from({ length: width * height }, (_, at) =>
    grey(at % width, Math.floor(at / width)),
  )
  return { width, height, data }
}

describe('the energy of the gradient', () => {
  test('is none on one grey, and the square of the step on a slope', () => {
    const all = { left: 0, top: 0, width: 20, height: 10 }
    expect(
      gradientEnergy(
        picture(20, 10, () => 90),
        all,
      ),
    ).toBe(0)
    // Each pixel is 3 lighter than its left neighbour and 4 lighter than the one above: 9 + 16.
    expect(
      gradientEnergy(
        picture(20, 10, (x, y) => 3 * x + 4 * y),
        all,
      ),
    ).toBe(25)
  })

  test('counts only the part that is asked for', () => {
    const half = picture(20, 10, (x) => (x < 10 ? 80 : (x % 2) * 200))
    expect(
      gradientEnergy(half, { left: 0, top: 0, width: 10, height: 10 }),
    ).toBe(0)
    expect(
      gradientEnergy(half, { left: 10, top: 0, width: 10, height: 10 }),
    ).toBe(40_000)
  })
})

describe('a word on a picture', () => {
  const busy = (x: number, y: number) => ((x + y) % 2) * 120
  test.each([
    ['upper left', 0, 0],
    ['upper right', 30, 0],
    ['lower left', 0, 32],
    ['lower right', 30, 32],
  ])('goes to the one calm corner, %s', (_name, left, top) => {
    const one = picture(40, 40, (x, y) =>
      x >= left && x < left + 10 && y >= top && y < top + 8 ? 60 : busy(x, y),
    )
    expect(calmestCorner(one, { width: 10, height: 8 })).toEqual({
      left,
      top,
      width: 10,
      height: 8,
    })
  })

  test('has no place where no corner is calm', () => {
    expect(
      calmestCorner(picture(40, 40, busy), { width: 10, height: 8 }),
    ).toBeUndefined()
  })

  test('stays in the picture', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 60 }),
        fc.integer({ min: 12, max: 60 }),
        (width, height) => {
          const found = calmestCorner(
            picture(width, height, (x) => x),
            { width: 10, height: 6 },
          )
          expect(found?.left).toBeGreaterThanOrEqual(0)
          expect((found?.left ?? 0) + 10).toBeLessThanOrEqual(width)
          expect((found?.top ?? 0) + 6).toBeLessThanOrEqual(height)
        },
      ),
    )
  })
})
