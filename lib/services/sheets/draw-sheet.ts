import 'server-only'
import type { Sharp } from 'sharp'
import { canvasOf, fillOn, layOn } from '#core/sheets/canvas'
import { pictureOf } from '#services/alignment/colour-pixels'
import { openPicture } from '#services/renditions/open-picture'
import type { LaidSheet } from '#services/sheets/lay-sheet'
import { type PictureCutter, fittedMark } from '#services/sheets/sheet-picture'
import type { pictureTypesetter } from '#services/sheets/text-picture'

/**
 * Draws a sheet that was laid: an image in sRGB, still to be encoded. Its parts are put into its pixels one by one: the
 * image library would bring each of them to the size of the whole first.
 */
export async function drawSheet(
  laid: LaidSheet,
  {
    cutter,
    typesetter,
    mark,
  }: {
    readonly cutter: PictureCutter
    /** The one that it was laid with. */
    readonly typesetter: ReturnType<typeof pictureTypesetter>
    readonly mark?: Buffer
  },
): Promise<Sharp> {
  const canvas = canvasOf(laid, laid.colours.ground)
  for (const [index, planned] of laid.pictures.entries()) {
    layOn(canvas, await cutter.cut(planned, index), planned.place)
  }
  for (const { place, colour } of laid.fills) {
    fillOn(canvas, place, colour)
  }
  for (const one of [...laid.words, ...laid.captions]) {
    const { pixels, width, height } = await typesetter.draw(
      one.words,
      one.style,
      one.width,
    )
    layOn(canvas, { data: pixels, width, height }, one.place)
  }
  if (mark !== undefined && laid.mark !== undefined) {
    const { data, info } = await openPicture(await fittedMark(mark, laid.mark))
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true })
    layOn(canvas, { data, ...info }, laid.mark)
  }
  return pictureOf(canvas)
}
