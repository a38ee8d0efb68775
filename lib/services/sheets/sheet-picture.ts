import 'server-only'
import type { Sharp } from 'sharp'
import type { GreyPicture } from '#core/sheets/calmness'
import type { Size } from '#core/sheets/largest-crop'
import type { PlannedPicture } from '#core/sheets/plan-sheet'
import { pictureOf, pixelsOf } from '#services/alignment/colour-pixels'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import { openPicture } from '#services/renditions/open-picture'

/** One picture of a sheet: its upright size, how to open it, and the word that stands with it. */
export type SheetPicture = {
  readonly size: Size
  /** @param shown the size that the whole picture is shown in: it need not be opened much larger */
  readonly open: (shown: Size) => Promise<Sharp>
  readonly caption: string
}

/** Cuts pictures to their places, each cut once. */
export type PictureCutter = {
  /** What is shown of a picture, as large as its place, in sRGB. */
  readonly cut: (
    planned: PlannedPicture,
    index: number,
  ) => Promise<ColourPixels>
  /** The same in greys at a quarter of that size. */
  readonly grey: (
    planned: PlannedPicture,
    index: number,
  ) => Promise<GreyPicture>
}

/** @param background what shows through where a picture is clear, such as `#ffffff` */
export function pictureCutter(
  pictures: readonly SheetPicture[],
  background: string,
): PictureCutter {
  const cuts = new Map<string, Promise<ColourPixels>>()
  const cut = (planned: PlannedPicture, index: number) => {
    const { width, height } = planned.place
    const key = JSON.stringify([index, width, height, planned.crop])
    const known = cuts.get(key)
    if (known !== undefined) return known
    const picture = pictures[index]
    if (picture === undefined) {
      throw new RangeError(`pictureCutter: expected a picture, got ${index}`)
    }
    const made = cutPicture(picture, planned, background)
    cuts.set(key, made)
    return made
  }
  return {
    cut,
    grey: async (planned, index) => {
      const pixels = await cut(planned, index)
      const { width, height } = pixels
      const small = await pictureOf(pixels)
        .resize({
          width: Math.max(1, Math.round(width / 4)),
          height: Math.max(1, Math.round(height / 4)),
          fit: 'fill',
        })
        .greyscale()
        .raw()
        .toBuffer({ resolveWithObject: true })
      return {
        data: small.data,
        width: small.info.width,
        height: small.info.height,
      }
    },
  }
}

/** An own mark, fitted to its place. */
export function fittedMark(mark: Buffer, { width, height }: Size) {
  return openPicture(mark)
    .resize({ width, height, fit: 'fill' })
    .toColourspace('srgb')
    .png()
    .toBuffer()
}

async function cutPicture(
  { size, open }: SheetPicture,
  { crop, place }: PlannedPicture,
  background: string,
): Promise<ColourPixels> {
  const scale = place.width / crop.width
  const left = Math.round(crop.left * scale)
  const top = Math.round(crop.top * scale)
  const whole = {
    width: Math.max(Math.round(size.width * scale), place.width),
    height: Math.max(Math.round(size.height * scale), place.height),
  }
  const picture = await open(whole)
  return pixelsOf(
    picture
      // The whole is reduced first and cut afterwards: a JPEG is then decoded small.
      .resize({ ...whole, fit: 'fill' })
      .extract({
        left: fitting(left, size.width * scale, place.width),
        top: fitting(top, size.height * scale, place.height),
        width: place.width,
        height: place.height,
      }),
    background,
  )
}

/** Rounding must not push the cut past the edge. */
function fitting(offset: number, whole: number, part: number): number {
  return Math.max(0, Math.min(offset, Math.max(Math.round(whole), part) - part))
}
