import 'server-only'
import { composed, scaling } from '#core/geometry/homography'
import type { PairState } from '#core/pairs/pair-state'
import type { Size } from '#core/sheets/largest-crop'
import {
  alignPictures,
  alignmentSide,
} from '#services/alignment/align-pictures'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import { readColourPixels } from '#services/alignment/read-colour-pixels'
import { readRendition } from '#services/renditions/renditions'

/** A photo to align: its original, how its owner turned it, and its upright size after that. */
export type AlignedPhoto = {
  readonly sha256: string
  readonly quarterTurns: number
  readonly size: Size
}

/**
 * How one photo lies over another: its map is between the whole photos, upright. Worked out on what is shown on a screen,
 * which is made first where it is missing.
 *
 * An alignment that could not be finished is told as a doubt, once in the log, and the pair is shown as it is.
 */
export async function alignPhotos(
  before: AlignedPhoto,
  after: AlignedPhoto,
): Promise<Exclude<PairState, { how: 'waiting' }>> {
  try {
    const one = await shownPixels(before)
    const other = await shownPixels(after)
    const alignment = await alignPictures(one, other)
    if (!alignment.accepted) {
      const { confidence, doubt } = alignment
      return { how: 'none', confidence, doubt }
    }
    return {
      how: 'computed',
      confidence: alignment.confidence,
      model: alignment.model,
      homography: composed(
        scaling(before.size.width / one.width, before.size.height / one.height),
        composed(
          alignment.homography,
          scaling(
            other.width / after.size.width,
            other.height / after.size.height,
          ),
        ),
      ),
    }
  } catch (error) {
    console.error(
      `Photos ${before.sha256} and ${after.sha256} could not be aligned.`,
      error,
    )
    return { how: 'none', confidence: 0, doubt: 'gave-up' }
  }
}

async function shownPixels(photo: AlignedPhoto): Promise<ColourPixels> {
  const rendition = await readRendition(
    photo.sha256,
    'screen',
    photo.quarterTurns,
  )
  if (!rendition.ok) throw new Error(rendition.refusal.detail)
  return readColourPixels(rendition.value.path, alignmentSide)
}
