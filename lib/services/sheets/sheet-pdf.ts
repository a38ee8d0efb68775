import 'server-only'
import type { Rectangle } from '#core/sheets/largest-crop'
import { openPdf } from '#services/pdf/open-pdf'
import { openPicture } from '#services/renditions/open-picture'
import type { SetWords } from '#services/sheets/lay-rows'
import type { LaidSheet } from '#services/sheets/lay-sheet'
import {
  isInFonts,
  pdfTypesetter,
  point,
} from '#services/sheets/pdf-typesetter'
import { fittedMark } from '#services/sheets/sheet-picture'
import { type pictureTypesetter } from '#services/sheets/text-picture'
import type { Typesetter } from '#services/sheets/typesetter'

/** A page that is being made: words are measured with it before it is laid, then it is written. */
export type SheetPage = {
  readonly typesetter: Typesetter
  /**
   * Writes the page.
   *
   * @param pictures JPEG without metadata, as large as their places: they go into the file as they are
   */
  readonly write: (
    laid: LaidSheet,
    pictures: readonly Buffer[],
    mark?: { readonly picture: Buffer; readonly words: string },
  ) => Promise<Buffer>
}

/**
 * A sheet as a PDF of one page: its words are text in fonts that it carries, its pictures have the text alternatives that
 * are given. Words in a script that these fonts do not have are drawn as a picture, which says its words to whoever reads
 * it aloud or copies it.
 */
export function openSheetPage({
  size,
  title,
  alternatives,
  credit,
  pictures: drawn,
}: {
  /** In pixels at 300 dots an inch. */
  readonly size: { readonly width: number; readonly height: number }
  readonly title: string
  /** One for each picture; an empty one for a picture that an earlier one speaks for. */
  readonly alternatives: readonly string[]
  /** Whom the file names as its author; empty: nobody. */
  readonly credit: string
  readonly pictures: ReturnType<typeof pictureTypesetter>
}): SheetPage {
  const { pdf, bytes } = openPdf({
    size: [size.width * point, size.height * point],
    margin: 0,
    title,
    author: credit,
  })
  return {
    typesetter: pdfTypesetter(pdf, drawn),
    write: async (laid, pictures, mark) => {
      const root = pdf.struct('Document')
      pdf.addStructure(root)
      pdf.markContent('Artifact', { type: 'Layout' })
      fill(pdf, { ...laid, left: 0, top: 0 }, laid.colours.ground)
      pdf.endMarkedContent()
      const isTitle = ({ role }: SetWords) => role === 'title'
      for (const words of laid.words.filter(isTitle)) {
        root.add(await wordsElement(pdf, 'H1', words, drawn))
      }
      for (const [index, alternative] of alternatives.entries()) {
        if (alternative === '') continue
        const next = alternatives.findIndex(
          (one, other) => other > index && one !== '',
        )
        const end = next === -1 ? pictures.length : next
        root.add(
          pdf.struct('Figure', { alt: alternative }, () => {
            for (let at = index; at < end; at += 1) {
              const picture = pictures[at]
              const place = laid.pictures[at]?.place
              if (picture !== undefined && place !== undefined) {
                putPicture(pdf, picture, place)
              }
            }
          }),
        )
      }
      pdf.markContent('Artifact', { type: 'Layout' })
      for (const { place, colour } of laid.fills) fill(pdf, place, colour)
      pdf.endMarkedContent()
      for (const words of laid.captions) {
        root.add(await wordsElement(pdf, 'P', words, drawn))
      }
      for (const words of laid.words.filter((one) => !isTitle(one))) {
        root.add(await wordsElement(pdf, 'P', words, drawn))
      }
      const place = laid.mark
      if (mark !== undefined && place !== undefined) {
        const picture = await fittedMark(mark.picture, place)
        root.add(
          pdf.struct('Figure', { alt: mark.words }, () => {
            putPicture(pdf, picture, place)
          }),
        )
      }
      root.end()
      pdf.end()
      return bytes
    },
  }
}

async function wordsElement(
  pdf: PDFKit.PDFDocument,
  tag: 'H1' | 'P',
  { words, style, place, width }: SetWords,
  drawn: ReturnType<typeof pictureTypesetter>,
) {
  if (!isInFonts(words)) {
    const picture = await drawn.draw(words, style, width)
    const pixels = await openPicture(picture.pixels, {
      raw: { width: picture.width, height: picture.height, channels: 4 },
    })
      .png()
      .toBuffer()
    return pdf.struct(tag, { actual: words }, () => {
      putPicture(pdf, pixels, { ...picture, left: place.left, top: place.top })
    })
  }
  return pdf.struct(tag, {}, () => {
    pdf
      .font(style.face)
      .fontSize(style.size * point)
      .fillColor(style.colour)
      .text(words, place.left * point, place.top * point, {
        // What was measured must not be broken anew for a rounding.
        width: (place.width + 2) * point,
      })
  })
}

function putPicture(
  pdf: PDFKit.PDFDocument,
  picture: Buffer,
  { left, top, width, height }: Rectangle,
) {
  pdf.image(picture, left * point, top * point, {
    width: width * point,
    height: height * point,
  })
}

function fill(
  pdf: PDFKit.PDFDocument,
  { left, top, width, height }: Rectangle,
  colour: string,
) {
  pdf
    .rect(left * point, top * point, width * point, height * point)
    .fill(colour)
}
