import 'server-only'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { ownWordsKey, titleKey } from '#core/write-ups/with-edits'
import type { Fact, WriteUp, WriteUpName } from '#core/write-ups/write-up'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { noJob } from '#services/jobs/jobs'
import type { NewSentenceEdit } from '#services/write-ups/schema'
import { readWriteUp } from '#services/write-ups/write-ups'

/**
 * Keeps the owner's own words for a sentence, with the sentence and its facts as they are now; empty words take the
 * sentence out.
 */
export async function keepEdit(
  jobId: string,
  { writeUp: name, sentence, words }: NewSentenceEdit,
  now: Instant,
): Promise<Result<undefined>> {
  // In all its words, which is how it is reworded.
  const offered = await readWriteUp(jobId, name, now, {
    edits: [],
    limit: Infinity,
  })
  if (offered === undefined) return noJob
  const on = basisOf(offered, sentence)
  if (on === undefined) {
    return refused({
      kind: 'conflict',
      detail:
        'This sentence is not there any more: the journal has changed. Look at the text again.',
    })
  }
  if (on === 'fixed') {
    return refused({
      kind: 'invalid',
      detail: 'Cautions and disclosures stand as they are.',
    })
  }
  const db = await database()
  const values = {
    words,
    madeOn: JSON.stringify(on),
    editedAt: toDate(now),
  }
  await db.$transaction(async (transaction) => {
    await transaction.sentenceEdit.upsert({
      where: {
        jobId_writeUp_sentence: { jobId, writeUp: name, sentence },
      },
      create: { jobId, writeUp: name, sentence, ...values },
      update: values,
      select: { jobId: true },
    })
  })
  return ok(undefined)
}

/** Goes by the journal's own wording again. */
export async function removeEdit(
  jobId: string,
  writeUp: WriteUpName,
  sentence: string,
): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.sentenceEdit.deleteMany({
      where: { jobId, writeUp, sentence },
    })
  })
}

function basisOf(
  offered: WriteUp,
  key: string,
):
  | { readonly text: string; readonly facts: readonly Fact[] }
  | 'fixed'
  | undefined {
  if (key === ownWordsKey) return { text: '', facts: [] }
  if (key === titleKey) return { text: offered.title, facts: [] }
  const found = [
    ...offered.paragraphs.flatMap(({ sentences }) => sentences),
    ...offered.leftOut,
  ].find((one) => one.key === key)
  if (found?.fixed) return 'fixed'
  return found && { text: found.text, facts: found.facts }
}
