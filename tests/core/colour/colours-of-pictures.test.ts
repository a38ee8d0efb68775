import { expect, test } from 'vitest'
import {
  type SmallPicture,
  coloursOfPictures,
} from '#core/colour/colours-of-pictures'

type Rgb = readonly [red: number, green: number, blue: number]

const wall: Rgb = [190, 190, 188]
const oak: Rgb = [176, 112, 50]
const teal: Rgb = [31, 110, 112]
const walnut: Rgb = [90, 62, 44]

/** A picture of 24 x 18: a wall, and before it a piece of its own colour, a top over it and the rest below. */
function picture(piece: Rgb, top: Rgb = piece, behind: Rgb = wall) {
  const [width, height] = [24, 18]
  const rgb = Array.from({ length: width * height }, (_, pixel) => {
    const [x, y] = [pixel % width, Math.floor(pixel / width)]
    if (x < 8 || x > 15 || y < 5 || y > 12) return behind
    return y < 7 ? top : piece
  }).flat()
  return { width, height, rgb } satisfies SmallPicture
}

test('what is painted is told from the wall by what it was before', () => {
  const after = picture(teal)
  expect(coloursOfPictures([{ after, before: picture(oak) }])).toEqual([
    'blue-green',
  ])
  // Without it the wall counts as well.
  expect(coloursOfPictures([{ after }])).toContain('grey')
})

test('a top of another colour is named after what is more spread', () => {
  const after = picture(teal, walnut)
  expect(coloursOfPictures([{ after, before: picture(oak) }])).toEqual([
    'blue-green',
    'brown',
  ])
})

test('a finish that changed nothing is named by the middle of the picture', () => {
  const after = picture(walnut, walnut, walnut)
  expect(coloursOfPictures([{ after, before: after }])).toEqual(['brown'])
})

test('no picture has no colour, and a before of another size is refused', () => {
  expect(coloursOfPictures([])).toEqual([])
  const after = picture(teal)
  const before = { width: 1, height: 1, rgb: [0, 0, 0] }
  expect(() => coloursOfPictures([{ after, before }])).toThrow(RangeError)
})
