import 'server-only'
import type { Sharp } from 'sharp'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import { openPicture } from '#services/renditions/open-picture'

/**
 * The pixels of a picture, in sRGB.
 *
 * @param background what shows through where it is clear, such as `#ffffff`
 * @throws Error when it cannot be decoded
 */
export async function pixelsOf(
  picture: Sharp,
  background = 'white',
): Promise<ColourPixels> {
  const { data, info } = await picture
    .flatten({ background })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data, width: info.width, height: info.height }
}

/** Pixels as a picture. They are not copied. */
export function pictureOf({ data, width, height }: ColourPixels): Sharp {
  return openPicture(
    Buffer.from(data.buffer, data.byteOffset, data.byteLength),
    { raw: { width, height, channels: 3 } },
  )
}
