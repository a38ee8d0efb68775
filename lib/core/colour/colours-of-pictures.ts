import { ciede2000 } from '#core/colour/ciede2000'
import { type ColourName, nameColour } from '#core/colour/colour-names'
import { type Lab, labOf } from '#core/photos/colour-grid'

/** A small picture: sRGB, 0 to 255, three for each pixel, row after row. */
export type SmallPicture = {
  readonly width: number
  readonly height: number
  readonly rgb: ArrayLike<number>
}

/** A picture of a finished piece, with the same view from before the work where that lies on it pixel by pixel. */
export type FinishedPicture = {
  readonly after: SmallPicture
  readonly before?: SmallPicture
}

// Common practice, no source: what was painted is another colour than before; light that moved is not.
const repainted = 20
const leastChanged = 0.1
const leastShare = 0.12
const most = 3

/**
 * The plain names of the colours that a piece has in pictures of it, the most spread first.
 *
 * The furniture stands in the middle, so pixels count less towards the edges. Where the same view is known from before
 * the work, only what has another colour now is looked at: that is the finish, and not the wall. Where that is next to
 * nothing, as after oiling, all of the picture counts again.
 *
 * @returns at most three; none without a picture
 * @throws RangeError when a before is of another size than its after
 */
export function coloursOfPictures(
  pictures: readonly FinishedPicture[],
): readonly ColourName[] {
  const shares = new Map<ColourName, number>()
  for (const { after, before } of pictures) {
    const weights = weightsOf(after, before)
    const total = sumOf(weights)
    for (const [pixel, weight] of weights.entries()) {
      if (weight === 0) continue
      const name = nameColour(labAt(after, pixel))
      const share = weight / total / pictures.length
      shares.set(name, (shares.get(name) ?? 0) + share)
    }
  }
  return [...shares]
    .toSorted(([, one], [, other]) => other - one)
    .filter(([, share], index) => index === 0 || share >= leastShare)
    .slice(0, most)
    .map(([name]) => name)
}

function weightsOf(
  after: SmallPicture,
  before: SmallPicture | undefined,
): readonly number[] {
  const central = centralWeights(after)
  if (before === undefined) return central
  if (before.width !== after.width || before.height !== after.height) {
    throw new RangeError(
      `coloursOfPictures: expected a before of ${after.width} x ${after.height}, got ${before.width} x ${before.height}`,
    )
  }
  const changed = central.map((weight, pixel) =>
    ciede2000(labAt(before, pixel), labAt(after, pixel)) < repainted
      ? 0
      : weight,
  )
  return sumOf(changed) > leastChanged * sumOf(central) ? changed : central
}

function labAt({ rgb }: SmallPicture, pixel: number): Lab {
  const at = pixel * 3
  return labOf(rgb[at] ?? 0, rgb[at + 1] ?? 0, rgb[at + 2] ?? 0)
}

/** What each pixel counts: falling off from the middle to e^-2 at the middle of an edge. */
function centralWeights({ width, height }: SmallPicture): readonly number[] {
  return Array.from({ length: width * height }, (_, pixel) => {
    const across = ((pixel % width) - (width - 1) / 2) / (width / 2)
    const down = (Math.floor(pixel / width) - (height - 1) / 2) / (height / 2)
    return Math.exp(-2 * (across ** 2 + down ** 2))
  })
}

function sumOf(weights: readonly number[]): number {
  return weights.reduce((total, weight) => total + weight, 0)
}
