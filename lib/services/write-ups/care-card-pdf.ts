import 'server-only'
import type { WorkshopSettings } from '#core/journal/journal'
import type { Paragraph, WriteUp } from '#core/write-ups/write-up'
import { openPdf } from '#services/pdf/open-pdf'

// Half a sheet: ISO 216 A5, and half of US letter, in points of 1/72 in.
const pages = { metric: [419.53, 595.28], us: [396, 612] } as const
const margin = 32
const ink = '#26221d'

/**
 * A care card as a PDF of half a sheet: tagged, with its fonts embedded, so that it is read aloud in order and prints
 * the same everywhere.
 *
 */
export async function careCardPdf(
  card: WriteUp,
  { name, units }: WorkshopSettings,
): Promise<Buffer> {
  const { pdf, bytes } = openPdf({
    size: pages[units],
    margin,
    title: card.title,
    author: name,
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
  root.end()
  pdf.end()
  return bytes
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
