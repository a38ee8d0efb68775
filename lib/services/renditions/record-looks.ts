import 'server-only'
import { colourGridSize, colourGridText } from '#core/photos/colour-grid'
import { likeness, likenessGrid } from '#core/photos/likeness'
import { sharpness } from '#core/photos/sharpness'
import { database } from '#services/database/open-database'
import { openPicture } from '#services/renditions/open-picture'

/** The longer side, in pixels, of what sharpness is measured in: the same for all, so that it compares. */
const measuredSide = 480

/** What an original looks like, how sharp it is and which colours it has (`likeness`, `sharpness`, `colourGridText`). */
export type Looks = {
  readonly likeness: string
  readonly sharpness: number
  readonly colours: string
}

/**
 * Reads what a picture looks like from a rendition of it.
 *
 * @returns undefined for one too small to have looks
 */
export async function readLooks(file: string): Promise<Looks | undefined> {
  const { data, info } = await openPicture(file)
    .resize({
      width: measuredSide,
      height: measuredSide,
      fit: 'inside',
      withoutEnlargement: true,
    })
    .flatten({ background: 'white' })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true })
  const { width, height, channels } = info
  if (width < 3 || height < 3 || channels !== 1) return undefined
  const small = await openPicture(data, { raw: { width, height, channels: 1 } })
    .resize({ ...likenessGrid, fit: 'fill' })
    .greyscale()
    .raw()
    .toBuffer()
  const coloured = await openPicture(file)
    .flatten({ background: 'white' })
    .resize({ ...colourGridSize, fit: 'fill' })
    .toColourspace('srgb')
    .raw()
    .toBuffer()
  return {
    likeness: likeness(small),
    sharpness: sharpness(data, width, height),
    colours: colourGridText(coloured),
  }
}

/** Writes down the looks of an original from its rendition, unless they are known or nothing is recorded of it. */
export async function recordLooks(sha256: string, file: string): Promise<void> {
  const db = await database()
  const row = await db.original.findUnique({
    where: { sha256 },
    select: { likeness: true, colours: true },
  })
  if (row === null || (row.likeness !== null && row.colours !== null)) return
  const looks = await readLooks(file)
  if (looks === undefined) return
  await db.$transaction((transaction) =>
    transaction.original.update({
      where: { sha256 },
      data: looks,
      select: { sha256: true },
    }),
  )
}
