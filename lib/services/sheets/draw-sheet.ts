import 'server-only'
import type { OverlayOptions, Sharp } from 'sharp'
import type { LaidSheet } from '#services/sheets/lay-sheet'
import {
  type PictureCutter,
  blankSheet,
  fittedMark,
} from '#services/sheets/sheet-picture'
import type { pictureTypesetter } from '#services/sheets/text-picture'

/** Draws a sheet that was laid: an image in sRGB, still to be encoded. */
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
  const layers: OverlayOptions[] = []
  for (const [index, planned] of laid.pictures.entries()) {
    const { data, width, height } = await cutter.cut(planned, index)
    layers.push({
      input: Buffer.from(data.buffer, data.byteOffset, data.byteLength),
      raw: { width, height, channels: 3 },
      left: planned.place.left,
      top: planned.place.top,
    })
  }
  for (const { place, colour } of laid.fills) {
    layers.push({
      input: {
        create: {
          width: Math.max(1, Math.round(place.width)),
          height: Math.max(1, Math.round(place.height)),
          channels: 3,
          background: colour,
        },
      },
      left: Math.round(place.left),
      top: Math.round(place.top),
    })
  }
  for (const one of [...laid.words, ...laid.captions]) {
    const { pixels, width, height } = await typesetter.draw(
      one.words,
      one.style,
      one.width,
    )
    layers.push({
      input: pixels,
      raw: { width, height, channels: 4 },
      left: Math.max(0, Math.round(one.place.left)),
      top: Math.max(0, Math.round(one.place.top)),
    })
  }
  if (mark !== undefined && laid.mark !== undefined) {
    layers.push({
      input: await fittedMark(mark, laid.mark),
      left: laid.mark.left,
      top: laid.mark.top,
    })
  }
  return blankSheet(laid, laid.colours.ground).composite(layers).removeAlpha()
}
