import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  colourDifference,
  colourGridText,
  labOf,
  moveInPlace,
  moveOverall,
  readColourGrid,
} from '#core/photos/colour-grid'

/** A picture of one colour, with another in the cells that are named. */
function picture(
  ground: readonly number[],
  part: readonly number[] = ground,
  isPart: (cell: number) => boolean = () => false,
) {
  const rgb = Array.from({ length: 108 }, (_, cell) =>
    isPart(cell) ? part : ground,
  ).flat()
  const grid = readColourGrid(colourGridText(rgb))
  if (grid === undefined) throw new Error('the grid was not read')
  return grid
}

describe('a colour of a screen in CIELAB', () => {
  // The primaries of sRGB in CIELAB under D65, as commonly tabled (from memory): made with IEC 61966-2-1 and CIE 15.
  test.each([
    [
      [255, 255, 255],
      [100, 0, 0],
    ],
    [
      [0, 0, 0],
      [0, 0, 0],
    ],
    [
      [255, 0, 0],
      [53.24, 80.09, 67.2],
    ],
    [
      [0, 255, 0],
      [87.73, -86.18, 83.18],
    ],
    [
      [0, 0, 255],
      [32.3, 79.19, -107.86],
    ],
  ])('%j is %j', ([red = 0, green = 0, blue = 0], wanted) => {
    const lab = labOf(red, green, blue)
    for (const [index, value] of wanted.entries()) {
      expect(Math.abs((lab[index] ?? NaN) - value)).toBeLessThan(0.06)
    }
  })
})

describe('the colours of a picture', () => {
  test('are read back as they were written', () => {
    const bytes = fc.array(fc.integer({ min: 0, max: 255 }), {
      minLength: 324,
      maxLength: 324,
    })
    fc.assert(
      fc.property(bytes, (rgb) => {
        const grid = readColourGrid(colourGridText(rgb)) ?? []
        expect(grid).toHaveLength(108)
        expect(grid[107]).toEqual(
          labOf(rgb[321] ?? 0, rgb[322] ?? 0, rgb[323] ?? 0),
        )
      }),
    )
  })

  test('of another size are refused', () => {
    expect(() => colourGridText([1, 2, 3])).toThrow(RangeError)
    expect(readColourGrid('00ff00')).toBeUndefined()
  })

  test('have not moved where nothing is another colour', () => {
    const wood = picture([150, 100, 50])
    expect(moveInPlace(wood, picture([152, 101, 51])).share).toBe(0)
    expect(colourDifference(wood[0] ?? [0, 0, 0], wood[1] ?? [0, 0, 0])).toBe(0)
  })

  test('of a painted part moved there alone, and the middle counts most', () => {
    const inMiddle = (cell: number) => cell === 53 || cell === 54
    const atEdge = (cell: number) => cell === 0 || cell === 1
    const wood = picture([150, 100, 50])
    const middle = moveInPlace(
      wood,
      picture([150, 100, 50], [20, 80, 80], inMiddle),
    )
    const edge = moveInPlace(
      wood,
      picture([150, 100, 50], [20, 80, 80], atEdge),
    )
    expect(middle.share).toBeGreaterThan(edge.share * 4)
    expect(middle.to[1]).toBeCloseTo(labOf(20, 80, 80)[1], 6)
    expect(middle.from[2]).toBeCloseTo(labOf(150, 100, 50)[2], 6)
  })

  test('of two views are compared on the whole', () => {
    const move = moveOverall(picture([200, 200, 200]), picture([100, 100, 100]))
    expect(move.share).toBe(1)
    expect(move.from[0]).toBeCloseTo(labOf(200, 200, 200)[0], 6)
    expect(move.to[0]).toBeCloseTo(labOf(100, 100, 100)[0], 6)
  })
})
