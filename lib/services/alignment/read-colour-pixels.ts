import 'server-only'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import { pixelsOf } from '#services/alignment/colour-pixels'
import { openPicture } from '#services/renditions/open-picture'

/**
 * The pixels of a rendition, or of any photo but HEIC, upright and in sRGB.
 *
 * @param longSide pixels that its longer side has at most
 * @throws Error when it cannot be decoded
 */
export async function readColourPixels(
  file: string,
  longSide: number,
): Promise<ColourPixels> {
  return pixelsOf(
    openPicture(file).autoOrient().resize({
      width: longSide,
      height: longSide,
      fit: 'inside',
      withoutEnlargement: true,
    }),
  )
}
