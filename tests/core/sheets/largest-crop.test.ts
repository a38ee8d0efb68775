import fc from 'fast-check'
import { expect, test } from 'vitest'
import { largestCrop } from '#core/sheets/largest-crop'

// Geometry, worked by hand for a 4032 x 3024 photo: 3024 * 4/5 = 2419.2, 3024 * 9/16 = 1701, 4032 * 9/16 = 2268.
test.each([
  ['1:1', 1 / 1, 3024, 3024, 504, 0],
  ['4:5', 4 / 5, 2419.2, 3024, 806.4, 0],
  ['9:16', 9 / 16, 1701, 3024, 1165.5, 0],
  ['16:9', 16 / 9, 4032, 2268, 0, 378],
])(
  'a phone photo cut to %s keeps all of one side',
  (_name, ratio, width, height, left, top) => {
    const crop = largestCrop({ width: 4032, height: 3024 }, ratio)
    expect(crop.width).toBeCloseTo(width, 6)
    expect(crop.height).toBeCloseTo(height, 6)
    expect(crop.left).toBeCloseTo(left, 6)
    expect(crop.top).toBeCloseTo(top, 6)
  },
)

const anyLength = fc.integer({ min: 1, max: 20_000 })
const anyRatio = fc.double({ min: 0.05, max: 20, noNaN: true })

test('a cut has its ratio, lies inside the picture, in its middle, and touches two edges', () => {
  fc.assert(
    fc.property(anyLength, anyLength, anyRatio, (width, height, ratio) => {
      const crop = largestCrop({ width, height }, ratio)
      expect(crop.width / crop.height).toBeCloseTo(ratio, 6)
      expect(crop.left).toBeGreaterThanOrEqual(0)
      expect(crop.top).toBeGreaterThanOrEqual(0)
      expect(2 * crop.left + crop.width).toBeCloseTo(width, 6)
      expect(2 * crop.top + crop.height).toBeCloseTo(height, 6)
      expect(Math.min(crop.left, crop.top)).toBeCloseTo(0, 6)
    }),
  )
})

test.each([
  [0, 10, 1],
  [10, NaN, 1],
  [10, 10, 0],
])('there is no cut of %d x %d to %d', (width, height, ratio) => {
  expect(() => largestCrop({ width, height }, ratio)).toThrow(RangeError)
})
