import 'server-only'
import type { WorkshopSettings } from '#core/journal/journal'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'
import type { Paragraph, WriteUp } from '#core/write-ups/write-up'
import { drawQrCode } from '#services/devices/qr-code'
import { openPdf } from '#services/pdf/open-pdf'

// Half a sheet: ISO 216 A5, and half of US letter, in points of 1/72 in.
const pages = { metric: [419.53, 595.28], us: [396, 612] } as const
const margin = 32
const ink = '#26221d'
/** 30 mm with its quiet zone: modules of a short address are then about 0.8 mm, which any phone reads. */
const codeSide = 85

type CardAdditions = {
  /** Whom the file names as its author; empty: nobody. */
  readonly credit?: string
  /** Where anyone can see how it was made: told in words and as a QR code, as large as a thumb. */
  readonly shownAt?: string | undefined
}

/**
 * A care card as a PDF of half a sheet: tagged, with its fonts embedded, so that it is read aloud in order and prints
 * the same everywhere.
 */
export async function careCardPdf(
  card: WriteUp,
  { units }: Pick<WorkshopSettings, 'units'>,
  { credit = '', shownAt }: CardAdditions = {},
  { careCard }: Language = english,
): Promise<Buffer> {
  const { pdf, bytes } = openPdf({
    size: pages[units],
    margin,
    title: card.title,
    author: credit,
  })
  const root = pdf.struct('Document')
  pdf.addStructure(root)
  const write = (tag: 'H1' | 'H2' | 'P', words: string) => {
    root.add(
      pdf.struct(tag, {}, () => {
        style(pdf, tag).text(words, { align: 'left' })
      }),
    )
  }
  write('H1', card.title)
  for (const paragraph of card.paragraphs) {
    if (paragraph.heading !== undefined) write('H2', paragraph.heading)
    for (const words of linesOf(paragraph)) write('P', words)
  }
  if (shownAt !== undefined) drawCode(pdf, root, shownAt, careCard)
  root.end()
  pdf.end()
  return bytes
}

/** The words beside the code, on the next page where this one is full. */
function drawCode(
  pdf: PDFKit.PDFDocument,
  root: PDFKit.PDFStructureElement,
  address: string,
  careCard: Language['careCard'],
): void {
  pdf.moveDown(0.8)
  const bottom = pdf.page.height - margin
  if (pdf.y + codeSide > bottom) pdf.addPage()
  const [left, top] = [margin, pdf.y]
  const { path, size } = drawQrCode(address)
  root.add(
    pdf.struct('Figure', { alt: careCard.codeOf(address) }, () => {
      pdf
        .save()
        .translate(left, top)
        .scale(codeSide / size)
        .path(path)
        .fill('#000000')
        .restore()
    }),
  )
  const beside = left + codeSide + 8
  root.add(
    pdf.struct('P', {}, () => {
      style(pdf, 'P').text(careCard.madeAt(address), beside, top + 14, {
        width: pdf.page.width - margin - beside,
        align: 'left',
      })
    }),
  )
}

function style(pdf: PDFKit.PDFDocument, tag: 'H1' | 'H2' | 'P') {
  switch (tag) {
    case 'H1':
      return pdf.font('title').fontSize(17).fillColor(ink).lineGap(2)
    case 'H2':
      return pdf.moveDown(0.5).font('title').fontSize(12).lineGap(1)
    case 'P':
      return pdf.font('text').fontSize(9).lineGap(1.5).moveDown(0.2)
  }
}

function linesOf({ layout, sentences }: Paragraph): readonly string[] {
  const words = sentences.map(({ text }) => text)
  return layout === 'prose' ? [words.join(' ')] : words
}
