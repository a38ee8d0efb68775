import 'server-only'
import {
  type SentenceEdit,
  type WriteUpName,
  writeUpNames,
} from '#core/write-ups/write-up'
import { database } from '#services/database/open-database'
import { madeOn } from '#services/write-ups/schema'

/** The owner's own words in all write-ups of a job, in the order in which they were written. */
export async function readEdits(
  jobId: string,
): Promise<readonly (SentenceEdit & { readonly writeUp: WriteUpName })[]> {
  const db = await database()
  const rows = await db.sentenceEdit.findMany({
    where: { jobId },
    orderBy: [{ editedAt: 'asc' }, { sentence: 'asc' }],
    select: { writeUp: true, sentence: true, words: true, madeOn: true },
  })
  return rows.flatMap((row) => {
    const writeUp = writeUpNames.find((one) => one === row.writeUp)
    return writeUp === undefined
      ? []
      : [
          {
            writeUp,
            key: row.sentence,
            words: row.words,
            madeOn: madeOn.parse(JSON.parse(row.madeOn)),
          },
        ]
  })
}
