import 'server-only'
import type { Rectangle } from '#core/sheets/largest-crop'
import { type SheetPlan, paperScale } from '#core/sheets/plan-sheet'
import { openPdf } from '#services/pdf/open-pdf'
import { fittedText } from '#services/sheets/text-picture'

/** From pixels at 300 dots an inch to points of 1/72 in. */
const point = 72 / 300
const ink = '#2a2621'
const softInk = '#5a544c'
// Paper is white already: a tinted ground would only cost ink.
const ground = '#ffffff'
const titleSizes = [46, 42, 38, 34, 30]
const labelSize = 26

/**
 * A before/after sheet as a PDF of one page: its words are text in fonts that it carries, its pictures have the text
 * alternative that is given. A title in a script that the fonts do not have is drawn as a picture, which says its words
 * to whoever reads it aloud or copies it.
 *
 * @param pictures JPEG without metadata, as large as their places in the plan: they go into the file as they are
 */
export async function sheetPdf({
  title,
  plan,
  pictures,
  alternative,
  credit,
}: {
  readonly title: string
  readonly plan: SheetPlan
  readonly pictures: { readonly before: Buffer; readonly after: Buffer }
  readonly alternative: string
  /** Who made the work, for the file's properties. */
  readonly credit: string
}): Promise<Buffer> {
  const { pdf, bytes } = openPdf({
    size: [plan.width * point, plan.height * point],
    margin: 0,
    title,
    author: credit,
  })
  const heading = inPoints(plan.title)
  const drawTitle = isInFonts(title)
    ? () => {
        writeTitle(pdf, title, heading)
      }
    : await titlePicture(pdf, title, plan.title, heading)
  const root = pdf.struct('Document')
  pdf.addStructure(root)
  root.add(pdf.struct('H1', { actual: title }, drawTitle))
  const words = [
    ['Before', plan.before.label],
    ['After', plan.after.label],
  ] as const
  root.add(
    pdf.struct('Figure', { alt: alternative }, () => {
      place(pdf, pictures.before, inPoints(plan.before.place))
      place(pdf, pictures.after, inPoints(plan.after.place))
      for (const [, label] of words) {
        const { left, top, width, height } = inPoints(label)
        // A little beyond the picture's edge, or a hair of it would show there.
        pdf.rect(left - 0.5, top - 0.5, width + 0.5, height + 0.5).fill(ground)
      }
    }),
  )
  for (const [word, label] of words) {
    root.add(
      pdf.struct('P', {}, () => {
        writeInMiddle(pdf, word, inPoints(label))
      }),
    )
  }
  root.end()
  pdf.end()
  return bytes
}

/** The scripts that the fonts have, with the digits and marks that all share. */
function isInFonts(words: string): boolean {
  return /^[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]*$/u.test(
    words,
  )
}

function writeTitle(
  pdf: PDFKit.PDFDocument,
  title: string,
  { left, top, width, height }: Rectangle,
) {
  const sizes = titleSizes.map((size) => size * paperScale * point)
  pdf.font('title').fillColor(ink)
  const fits = (size: number) =>
    pdf.fontSize(size).heightOfString(title, { width }) <= height
  pdf.fontSize(sizes.find(fits) ?? Math.min(...sizes))
  pdf.text(title, left, top, { width, height, ellipsis: true })
}

async function titlePicture(
  pdf: PDFKit.PDFDocument,
  title: string,
  room: Rectangle,
  { left, top }: Rectangle,
): Promise<() => void> {
  const drawn = await fittedText(
    title,
    { font: 'title', colour: ink, width: room.width },
    titleSizes.map((size) => Math.round(size * paperScale)),
    room.height,
  )
  return () => {
    pdf.image(drawn.pixels, left, top, {
      width: drawn.width * point,
      height: drawn.height * point,
    })
  }
}

function place(
  pdf: PDFKit.PDFDocument,
  picture: Buffer,
  { left, top, width, height }: Rectangle,
) {
  pdf.image(picture, left, top, { width, height })
}

function writeInMiddle(
  pdf: PDFKit.PDFDocument,
  word: string,
  { left, top, width, height }: Rectangle,
) {
  pdf
    .font('text')
    .fontSize(labelSize * paperScale * point)
    .fillColor(softInk)
  // The line is as high as the letters' body; the capitals stand a little above its middle.
  const line = pdf.currentLineHeight()
  pdf.text(word, left, top + (height - line) / 2, {
    width,
    align: 'center',
    lineBreak: false,
  })
}

function inPoints({ left, top, width, height }: Rectangle): Rectangle {
  return {
    left: left * point,
    top: top * point,
    width: width * point,
    height: height * point,
  }
}
