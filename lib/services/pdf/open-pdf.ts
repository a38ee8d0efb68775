import 'server-only'
import path from 'node:path'
import PDFDocument from 'pdfkit'

/**
 * A new PDF, tagged, in English, with fonts that come with the program, of which those used are embedded: `title` and `text`
 * for documents, and the faces of sheets under their own names; `text` is in use.
 *
 * Its properties are title and author alone, neither what made it nor when.
 *
 * @param author whom the file names; empty: nobody
 * @param size width and height in points of 1/72 in
 * @param margin in points
 * @returns the document, and its bytes, which are there once it has been ended
 */
export function openPdf({
  size,
  margin,
  title,
  author,
}: {
  readonly size: readonly [number, number]
  readonly margin: number
  readonly title: string
  readonly author: string
}): { readonly pdf: PDFKit.PDFDocument; readonly bytes: Promise<Buffer> } {
  const pdf = new PDFDocument({
    size: [...size],
    margin,
    lang: 'en-GB',
    tagged: true,
    pdfVersion: '1.7',
    displayTitle: true,
    info: { Title: title, ...(author !== '' && { Author: author }) },
    font: fontFile('libre-franklin-medium.ttf'),
  })
  delete pdf.info.CreationDate
  delete pdf.info.Creator
  delete pdf.info.Producer
  // The same once more as XMP, with the time, and not escaped: it is left out.
  Object.assign(pdf, { endMetadata: () => undefined })
  pdf.registerFont('title', fontFile('source-serif-4-regular.ttf'))
  pdf.registerFont('text', fontFile('libre-franklin-medium.ttf'))
  pdf.registerFont('serif', fontFile('source-serif-4-regular.ttf'))
  pdf.registerFont('sans', fontFile('libre-franklin-medium.ttf'))
  pdf.registerFont('heavy', fontFile('libre-franklin-extra-bold.ttf'))
  const parts: Buffer[] = []
  const bytes = new Promise<Buffer>((resolve, reject) => {
    pdf.on('data', (part: Buffer) => parts.push(part))
    pdf.on('end', () => {
      resolve(Buffer.concat(parts))
    })
    pdf.on('error', reject)
  })
  return { pdf, bytes }
}

function fontFile(file: string): string {
  return path.join(process.cwd(), 'lib/services/sheets/fonts', file)
}
