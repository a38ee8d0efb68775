import { linearLight } from '#core/colour/linear-light'

/** Cells across and down that a picture's colours are kept for. */
export const colourGridSize = { width: 12, height: 9 } as const

/** A colour in CIELAB, D65: lightness 0 to 100, green to red, blue to yellow. */
export type Lab = readonly [lightness: number, a: number, b: number]

/** The mean colours of a picture's cells, row after row: 12 x 9 of them. */
export type ColourGrid = readonly Lab[]

const cells = colourGridSize.width * colourGridSize.height

/**
 * The mean colours of a picture as text to keep.
 *
 * @param rgb sRGB, 0 to 255, three for each of 12 x 9 cells, row after row
 * @returns 648 hexadecimal digits
 * @throws RangeError when there are not 324 values
 */
export function colourGridText(rgb: ArrayLike<number>): string {
  if (rgb.length !== cells * 3) {
    throw new RangeError(
      `colourGridText: expected ${cells * 3} values, got ${rgb.length}`,
    )
  }
  return Array.from(rgb, (value) =>
    Math.round(value).toString(16).padStart(2, '0'),
  ).join('')
}

/**
 * The grid that {@link colourGridText} wrote.
 *
 * @returns undefined when the text is of another length: written by another edition
 */
export function readColourGrid(text: string): ColourGrid | undefined {
  if (text.length !== cells * 6) return undefined
  return Array.from({ length: cells }, (_, cell) =>
    labOf(
      byteAt(text, cell * 3),
      byteAt(text, cell * 3 + 1),
      byteAt(text, cell * 3 + 2),
    ),
  )
}

function byteAt(text: string, index: number): number {
  return Number.parseInt(text.slice(index * 2, index * 2 + 2), 16)
}

/**
 * A colour of a screen in CIELAB.
 *
 * @param red 0 to 255, sRGB, like the others
 * Source: IEC 61966-2-1 for sRGB and its white, CIE 15:2004, 8.2.1, for CIELAB.
 */
export function labOf(red: number, green: number, blue: number): Lab {
  const r = linearLight(red)
  const g = linearLight(green)
  const b = linearLight(blue)
  const x = bent((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505)
  const y = bent(0.2126 * r + 0.7152 * g + 0.0722 * b)
  const z = bent((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089)
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)]
}

function bent(ratio: number): number {
  return ratio > (6 / 29) ** 3
    ? Math.cbrt(ratio)
    : ratio / (3 * (6 / 29) ** 2) + 4 / 29
}

/** What is another colour now: how much of the picture, and its mean colour before and after. */
export type ColourMove = {
  /** 0 to 1, the middle counting most, for the furniture is there. */
  readonly share: number
  readonly from: Lab
  readonly to: Lab
}

/** Two colours so far apart are two colours (CIE 1976 colour difference); common practice, no source. */
const anotherColour = 8

/** What changed between two pictures of the same view, cell against cell. */
export function moveInPlace(from: ColourGrid, to: ColourGrid): ColourMove {
  const changed = weights.map((weight, cell) =>
    colourDifference(from[cell] ?? black, to[cell] ?? black) < anotherColour
      ? 0
      : weight,
  )
  return {
    share: changed.reduce((sum, weight) => sum + weight, 0),
    from: meanOf(from, changed),
    to: meanOf(to, changed),
  }
}

/** How the colours differ on the whole: what can be said of two different views. All of it counts as changed. */
export function moveOverall(from: ColourGrid, to: ColourGrid): ColourMove {
  return { share: 1, from: meanOf(from, weights), to: meanOf(to, weights) }
}

/** The CIE 1976 colour difference: 2 is just seen. */
export function colourDifference(one: Lab, other: Lab): number {
  return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2])
}

const black: Lab = [0, 0, 0]

/** The mean colour of cells that count so much each; black when none does. */
function meanOf(grid: ColourGrid, counts: readonly number[]): Lab {
  const sum: [number, number, number] = [0, 0, 0]
  let total = 0
  for (const [cell, count] of counts.entries()) {
    const [lightness, a, b] = grid[cell] ?? black
    sum[0] += count * lightness
    sum[1] += count * a
    sum[2] += count * b
    total += count
  }
  return total === 0 ? black : [sum[0] / total, sum[1] / total, sum[2] / total]
}

/** What each cell counts: falling off from the middle to e^-2 at the middle of an edge; they sum up to 1. */
const weights: readonly number[] = (() => {
  const { width, height } = colourGridSize
  const raw = Array.from({ length: cells }, (_, cell) => {
    const across = ((cell % width) - (width - 1) / 2) / (width / 2)
    const down = (Math.floor(cell / width) - (height - 1) / 2) / (height / 2)
    return Math.exp(-2 * (across ** 2 + down ** 2))
  })
  const sum = raw.reduce((total, weight) => total + weight, 0)
  return raw.map((weight) => weight / sum)
})()
