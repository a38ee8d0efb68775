import 'server-only'
import type { ColourPixels } from '#services/alignment/alignment-thread'
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
  const { data, info } = await openPicture(file)
    .autoOrient()
    .resize({
      width: longSide,
      height: longSide,
      fit: 'inside',
      withoutEnlargement: true,
    })
    .flatten({ background: 'white' })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data, width: info.width, height: info.height }
}
