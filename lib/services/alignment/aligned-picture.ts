import 'server-only'
import { commonCrop } from '#core/geometry/common-crop'
import {
  type Homography,
  composed,
  scaling,
  translation,
} from '#core/geometry/homography'
import type { Rectangle, Size } from '#core/sheets/largest-crop'
import type { AlignedPhoto } from '#services/alignment/align-photos'
import {
  type ColourPixels,
  withAlignmentThread,
} from '#services/alignment/alignment-thread'
import { pixelsOf } from '#services/alignment/colour-pixels'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { openOriginal } from '#services/renditions/open-original'

/** The two pictures of a pair in one frame. */
export type AlignedPictures = {
  readonly before: ColourPixels
  readonly after: ColourPixels
}

/**
 * The frame that the photos of a pair share, in pixels of the whole before; fractions are kept.
 *
 * @throws RangeError when the two show nothing in common, which no accepted alignment comes to
 */
export function alignedFrame(
  before: Size,
  after: Size,
  homography: Homography,
): Rectangle {
  const crop = commonCrop(homography, before, after)
  if (crop === undefined) {
    throw new RangeError(
      'alignedFrame: expected photos with something in common',
    )
  }
  return crop
}

/**
 * Both photos of a pair from their originals: the after warped onto the before, both cut to the largest upright rectangle
 * that both show, in sRGB.
 *
 * @param homography from upright pixels of the whole after to those of the before
 * @param longSide pixels that the longer side has at most
 * @throws RangeError when the two show nothing in common, which no accepted alignment comes to
 * @throws Error when an original is missing or damaged, or warping takes more time or memory than it may
 */
export async function alignedPictures(
  before: AlignedPhoto,
  after: AlignedPhoto,
  homography: Homography,
  longSide: number,
): Promise<AlignedPictures> {
  const crop = alignedFrame(before.size, after.size, homography)
  const scale = Math.min(1, longSide / Math.max(crop.width, crop.height))
  const whole = scaled(before.size, scale)
  const across = whole.width / before.size.width
  const down = whole.height / before.size.height
  // In whole pixels of the before as it is shown: it is only cut, and the after alone has to be warped.
  const left = Math.ceil(crop.left * across)
  const top = Math.ceil(crop.top * down)
  const frame = {
    width: atLeastOne(Math.floor((crop.left + crop.width) * across) - left),
    height: atLeastOne(Math.floor((crop.top + crop.height) * down) - top),
  }
  // The after is reduced to about the size in which it will be seen, so that warping neither blurs nor skips.
  const [a, b, , d, e] = homography
  const enlargement = Math.sqrt(Math.abs(a * e - b * d))
  const reduced = scaled(after.size, Math.min(1, scale * enlargement))
  const [one, other] = await Promise.all([
    photoPixels(before, whole, { left, top, ...frame }),
    photoPixels(after, reduced),
  ])
  const toFrame = composed(
    translation(-left, -top),
    composed(
      scaling(across, down),
      composed(
        homography,
        scaling(
          after.size.width / other.width,
          after.size.height / other.height,
        ),
      ),
    ),
  )
  return {
    before: one,
    after: await withAlignmentThread((thread) =>
      thread.warp(other, toFrame, frame),
    ),
  }
}

function scaled({ width, height }: Size, scale: number): Size {
  return {
    width: atLeastOne(Math.round(width * scale)),
    height: atLeastOne(Math.round(height * scale)),
  }
}

function atLeastOne(length: number): number {
  return Math.max(1, length)
}

/** A photo in another size, or a part of it. */
async function photoPixels(
  photo: AlignedPhoto,
  { width, height }: Size,
  part?: Rectangle,
): Promise<ColourPixels> {
  const store = await openPhotoStore()
  const original = await openOriginal(store.path(photo.sha256), {
    failOn: 'error',
    quarterTurns: photo.quarterTurns,
  })
  const resized = original.resize({ width, height, fit: 'fill' })
  return pixelsOf(part === undefined ? resized : resized.extract(part))
}
