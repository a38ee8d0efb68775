import 'server-only'
import type { Sharp } from 'sharp'
import { colourGridSize, colourGridText } from '#core/photos/colour-grid'
import { likeness, likenessGrid } from '#core/photos/likeness'
import { sharpness } from '#core/photos/sharpness'
import { openPicture } from '#services/renditions/open-picture'

/** The longer side, in pixels, of what looks are read from: the same for all, so that sharpness compares. */
const lookedAtSide = 480

/** What an original looks like, how sharp it is and which colours it has (`likeness`, `sharpness`, `colourGridText`). */
export type Looks = {
  readonly likeness: string
  readonly sharpness: number
  readonly colours: string
}

/**
 * What a picture looks like.
 *
 * @param picture in sRGB or grey, of the size of the screen rendition
 * @returns undefined for one too small to have looks
 */
export async function looksOf(picture: Sharp): Promise<Looks | undefined> {
  const { data, info } = await picture
    .resize({
      width: lookedAtSide,
      height: lookedAtSide,
      fit: 'inside',
      withoutEnlargement: true,
    })
    .flatten({ background: 'white' })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true })
  const { width, height, channels } = info
  if (width < 3 || height < 3 || channels !== 3) return undefined
  const small = openPicture(data, { raw: { width, height, channels } })
  const fill = { fit: 'fill' } as const
  const [grey, colours] = await Promise.all([
    small.clone().greyscale().raw().toBuffer(),
    small
      .clone()
      .resize({ ...colourGridSize, ...fill })
      .raw()
      .toBuffer(),
  ])
  const lightness = await openPicture(grey, {
    raw: { width, height, channels: 1 },
  })
    .resize({ ...likenessGrid, ...fill })
    .greyscale()
    .raw()
    .toBuffer()
  return {
    likeness: likeness(lightness),
    sharpness: sharpness(grey, width, height),
    colours: colourGridText(colours),
  }
}
