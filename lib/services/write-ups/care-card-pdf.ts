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

/** A heading and two lines, in points. */
const headingRoom = 54

type CardAdditions = {
  /** Whom the file names as its author; empty: nobody. */
  readonly credit?: string
  /** Where anyone can see how it was made: told in words and as a QR code, as large as a thumb. */
  readonly shownAt?: string | undefined
}

/** How far the type may shrink so that a card is one page: to 8 points, as small as small print is. */
const scales = [1, 0.95, 0.89] as const

/**
 * A care card as a PDF of half a sheet: tagged, with its fonts embedded, so that it is read aloud in order and prints
 * the same everywhere. What no small type brings onto one page goes on on the next, in the larger one.
 */
export async function careCardPdf(
  card: WriteUp,
  settings: Pick<WorkshopSettings, 'units'>,
  additions: CardAdditions = {},
  { careCard }: Language = english,
): Promise<Buffer> {
  for (const scale of scales) {
    const drawn = await drawCard(card, settings, additions, careCard, scale)
    if (drawn.pageCount === 1) return drawn.bytes
  }
  return (await drawCard(card, settings, additions, careCard, 1)).bytes
}

async function drawCard(
  card: WriteUp,
  { units }: Pick<WorkshopSettings, 'units'>,
  { credit = '', shownAt }: CardAdditions,
  careCard: Language['careCard'],
  scale: number,
): Promise<{ readonly bytes: Buffer; readonly pageCount: number }> {
  const { pdf, bytes } = openPdf({
    size: pages[units],
    margin,
    title: card.title,
    author: credit,
  })
  let pageCount = 1
  pdf.on('pageAdded', () => {
    pageCount += 1
  })
  const root = pdf.struct('Document')
  pdf.addStructure(root)
  const write = (tag: 'H1' | 'H2' | 'P', words: string) => {
    root.add(
      pdf.struct(tag, {}, () => {
        style(pdf, tag, scale).text(words, { align: 'left' })
      }),
    )
  }
  if (shownAt === undefined) write('H1', card.title)
  else drawHead(pdf, root, card.title, shownAt, careCard, scale)
  for (const paragraph of card.paragraphs) {
    if (paragraph.heading !== undefined) {
      // A heading stands on the page of what it heads.
      if (pdf.y + headingRoom > pdf.page.height - margin) pdf.addPage()
      write('H2', paragraph.heading)
    }
    for (const words of linesOf(paragraph)) write('P', words)
  }
  root.end()
  pdf.end()
  return { bytes: await bytes, pageCount }
}

/** The title and where to look, with the code to their right, so that it is never alone on a page of its own. */
function drawHead(
  pdf: PDFKit.PDFDocument,
  root: PDFKit.PDFStructureElement,
  title: string,
  address: string,
  careCard: Language['careCard'],
  scale: number,
): void {
  const top = pdf.y
  const left = pdf.page.width - margin - codeSide
  const beside = { width: left - margin - 12, align: 'left' } as const
  root.add(
    pdf.struct('H1', {}, () => {
      style(pdf, 'H1', scale).text(title, margin, top, beside)
    }),
  )
  root.add(
    pdf.struct('P', {}, () => {
      style(pdf, 'P', scale).text(careCard.madeAt(address), beside)
    }),
  )
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
  pdf.x = margin
  pdf.y = Math.max(pdf.y, top + codeSide - 16)
}

function style(pdf: PDFKit.PDFDocument, tag: 'H1' | 'H2' | 'P', scale: number) {
  switch (tag) {
    case 'H1':
      return pdf.font('title').fontSize(17).fillColor(ink).lineGap(2)
    case 'H2':
      return pdf
        .moveDown(0.5)
        .font('title')
        .fontSize(12 * scale)
        .lineGap(1)
    case 'P':
      return pdf
        .font('text')
        .fontSize(9 * scale)
        .lineGap(1.5 * scale)
        .moveDown(0.2)
  }
}

function linesOf({ layout, sentences }: Paragraph): readonly string[] {
  const words = sentences.map(({ text }) => text)
  return layout === 'prose' ? [words.join(' ')] : words
}
