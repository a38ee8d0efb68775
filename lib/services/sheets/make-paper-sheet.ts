import 'server-only'
import { type Result, ok } from '#core/result'
import { type PaperShape, paperShapes } from '#core/sheets/plan-sheet'
import { sheetFileName } from '#core/sheets/sheet-file-name'
import { pictureOf } from '#services/alignment/colour-pixels'
import { inTurn } from '#services/renditions/renditions'
import {
  type Sheet,
  type SheetChoice,
  layRead,
  readSheet,
} from '#services/sheets/make-sheet'
import { openSheetPage } from '#services/sheets/sheet-pdf'
import { pictureTypesetter } from '#services/sheets/text-picture'
import { settableWords } from '#services/sheets/typesetter'

/**
 * Makes the before/after sheet of a job to be printed, as a PDF of one page with its words as text. Its properties are
 * the title and whom the workshop credits.
 *
 * @returns refused as `makeSheet` is
 */
export async function makePaperSheet(
  jobId: string,
  paper: PaperShape,
  choice: SheetChoice = {},
): Promise<Result<Sheet>> {
  const read = await readSheet(jobId, choice)
  if (!read.ok) return read
  const { content, look, mark, maker, credit } = read.value
  const { title } = content.journal.job
  const bytes = await inTurn(async () => {
    const pictures = await content.open(look.light)
    const drawn = pictureTypesetter()
    const page = openSheetPage({
      size: paperShapes[paper],
      title: settableWords(title) || '·',
      alternatives: content.alternatives,
      credit,
      pictures: drawn,
    })
    const laid = await layRead(paper, read.value, pictures, page.typesetter)
    const printed: Buffer[] = []
    for (const [index, planned] of laid.sheet.pictures.entries()) {
      printed.push(
        await pictureOf(await laid.cutter.cut(planned, index))
          .jpeg({ quality: 88, chromaSubsampling: '4:4:4' })
          .toBuffer(),
      )
    }
    return page.write(
      laid.sheet,
      printed,
      mark?.picture && { picture: mark.picture.bytes, words: maker },
    )
  })
  return ok({
    bytes,
    mediaType: 'application/pdf',
    fileName: sheetFileName({
      title,
      shape: paper,
      design: look.design,
      format: 'pdf',
    }),
  })
}
