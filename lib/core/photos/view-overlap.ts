/** A small grey picture, row by row from the top left. */
export type GreyFrame = {
  readonly width: number
  readonly height: number
  /** 0 to 255 each; as many as width times height. */
  readonly values: ArrayLike<number>
}

/** How two pictures of one view lie on each other. */
export type ViewOverlap = {
  /** As they are: 0 nothing in common, 1 the same to the pixel. */
  readonly overlap: number
  /** How far the second would have to be moved to lie best, as parts of its width and height; right and down are positive. */
  readonly right: number
  readonly down: number
  /** What the overlap would be then. */
  readonly best: number
}

/** Farther than this the hand is not off by a little, and a match is chance. */
const farthest = 0.125
/** Places at the border whose edges are not known in full: one for the gradient, one for the blur. */
const margin = 2

/**
 * How well two small grey pictures show the same view, cheaply enough for every few frames of a camera.
 *
 * Compared are the strengths of edges, not the greys: a piece that was dark before and is light after has its edges in the
 * same places. The measure is the normalised correlation of the two edge pictures, blurred, over what both show.
 *
 * @throws RangeError when the two differ in size or do not hold as many values as they say
 * Source: zero-normalised cross-correlation over Sobel gradients, textbook methods; the reach is common practice, no source.
 */
export function viewOverlap(one: GreyFrame, other: GreyFrame): ViewOverlap {
  for (const frame of [one, other]) {
    if (
      frame.width !== one.width ||
      frame.height !== one.height ||
      frame.values.length !== one.width * one.height
    ) {
      throw new RangeError(
        `viewOverlap: expected two frames of ${one.width} x ${one.height}, got ${frame.values.length} values for ${frame.width} x ${frame.height}`,
      )
    }
  }
  const { width, height } = one
  const before = blurred(edges(one), width, height)
  const after = blurred(edges(other), width, height)
  const overlap = correlation(before, after, width, height, 0, 0)
  let found = { best: overlap, right: 0, down: 0 }
  const reachX = Math.floor(width * farthest)
  const reachY = Math.floor(height * farthest)
  for (let y = -reachY; y <= reachY; y++) {
    for (let x = -reachX; x <= reachX; x++) {
      const best = correlation(before, after, width, height, x, y)
      if (best > found.best) {
        found = { best, right: x / width, down: y / height }
      }
    }
  }
  return { overlap, ...found }
}

/** The strength of the edge at each place; none at the border. */
function edges({ width, height, values }: GreyFrame): Float64Array {
  const strengths = new Float64Array(width * height)
  const at = (x: number, y: number) => values[y * width + x] ?? 0
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const across =
        at(x + 1, y - 1) +
        2 * at(x + 1, y) +
        at(x + 1, y + 1) -
        (at(x - 1, y - 1) + 2 * at(x - 1, y) + at(x - 1, y + 1))
      const along =
        at(x - 1, y + 1) +
        2 * at(x, y + 1) +
        at(x + 1, y + 1) -
        (at(x - 1, y - 1) + 2 * at(x, y - 1) + at(x + 1, y - 1))
      // The root keeps one hard edge, such as a window, from outweighing all the others.
      strengths[y * width + x] = Math.sqrt(Math.hypot(across, along))
    }
  }
  return strengths
}

/** Each value with its eight neighbours, so that a hand's tremble does not tear fine edges apart. */
function blurred(
  values: Float64Array,
  width: number,
  height: number,
): Float64Array {
  const soft = new Float64Array(values.length)
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      let sum = 0
      for (let dy = -1; dy <= 1; dy++) {
        for (let dx = -1; dx <= 1; dx++) {
          sum += values[(y + dy) * width + x + dx] ?? 0
        }
      }
      soft[y * width + x] = sum / 9
    }
  }
  return soft
}

/** The correlation of the first with the second moved by so many places, over what both show; 0 where one has no edges. */
function correlation(
  one: Float64Array,
  other: Float64Array,
  width: number,
  height: number,
  right: number,
  down: number,
): number {
  let count = 0
  let sumOne = 0
  let sumOther = 0
  let squareOne = 0
  let squareOther = 0
  let product = 0
  const firstX = margin + Math.max(0, right)
  const firstY = margin + Math.max(0, down)
  const endX = width - margin + Math.min(0, right)
  const endY = height - margin + Math.min(0, down)
  for (let y = firstY; y < endY; y++) {
    for (let x = firstX; x < endX; x++) {
      const a = one[y * width + x] ?? 0
      const b = other[(y - down) * width + x - right] ?? 0
      count += 1
      sumOne += a
      sumOther += b
      squareOne += a * a
      squareOther += b * b
      product += a * b
    }
  }
  const spread = Math.sqrt(
    (squareOne - sumOne ** 2 / count) * (squareOther - sumOther ** 2 / count),
  )
  return spread > 1e-9
    ? Math.max(0, Math.min(1, (product - (sumOne * sumOther) / count) / spread))
    : 0
}
