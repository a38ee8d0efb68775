import 'server-only'
import { commonCrop } from '#core/geometry/common-crop'
import {
  type Homography,
  composed,
  scaling,
  translation,
} from '#core/geometry/homography'
import type { Size } from '#core/sheets/largest-crop'
import type { AlignedPhoto } from '#services/alignment/align-photos'
import {
  type ColourPixels,
  withAlignmentThread,
} from '#services/alignment/alignment-thread'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { openOriginal } from '#services/renditions/open-original'

/** The two pictures of a pair in one frame. */
export type AlignedPictures = {
  readonly before: ColourPixels
  readonly after: ColourPixels
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
  const crop = commonCrop(homography, before.size, after.size)
  if (crop === undefined) {
    throw new RangeError(
      'alignedPictures: expected photos with something in common',
    )
  }
  const scale = Math.min(1, longSide / Math.max(crop.width, crop.height))
  const frame = {
    width: Math.max(1, Math.floor(crop.width * scale)),
    height: Math.max(1, Math.floor(crop.height * scale)),
  }
  // The after is reduced to about the size in which it will be seen, so that warping neither blurs nor skips.
  const [a, b, , d, e] = homography
  const enlargement = Math.sqrt(Math.abs(a * e - b * d))
  const own = Math.min(1, scale * enlargement)
  const one = await pixelsOf(before, scale)
  const other = await pixelsOf(after, own)
  const toFrame = (size: Size, picture: ColourPixels) =>
    scaling(size.width / picture.width, size.height / picture.height)
  const cut = composed(
    translation(-crop.left * scale, -crop.top * scale),
    scaling(scale),
  )
  return withAlignmentThread(async (thread) => ({
    before: await thread.warp(
      one,
      composed(cut, toFrame(before.size, one)),
      frame,
    ),
    after: await thread.warp(
      other,
      composed(cut, composed(homography, toFrame(after.size, other))),
      frame,
    ),
  }))
}

async function pixelsOf(
  photo: AlignedPhoto,
  scale: number,
): Promise<ColourPixels> {
  const store = await openPhotoStore()
  const original = await openOriginal(store.path(photo.sha256), {
    failOn: 'error',
    quarterTurns: photo.quarterTurns,
  })
  const { data, info } = await original
    .resize({
      width: Math.max(1, Math.round(photo.size.width * scale)),
      height: Math.max(1, Math.round(photo.size.height * scale)),
      fit: 'fill',
    })
    .flatten({ background: 'white' })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data, width: info.width, height: info.height }
}
