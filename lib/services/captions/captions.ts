import 'server-only'
import { alignSteps } from '#core/captions/align-steps'
import {
  type CaptionQuestion,
  askFromCaptions,
} from '#core/captions/ask-from-captions'
import { type Chapter, chapterProblems } from '#core/captions/chapter'
import {
  type ChapterChange,
  changeKey,
  chapterChanges,
  withChange,
} from '#core/captions/chapter-changes'
import { readChapterMarks } from '#core/captions/chapter-marks'
import type { Captions } from '#core/captions/cue'
import { planChapters } from '#core/captions/plan-chapters'
import { readCaptions } from '#core/captions/read-captions'
import { spokenWords } from '#core/captions/spoken-words'
import type { Journal } from '#core/journal/journal'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { type Result, ok, refused } from '#core/result'
import { english } from '#core/write-ups/english'
import type { Instant } from '#core/units'
import { decodeCaptions } from '#services/captions/decode-captions'
import {
  type SettledQuestion,
  chapterList,
  settledList,
} from '#services/captions/schema'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { noJob } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'

/** A day of captions with a time for every word is smaller. */
export const maximumCaptionBytes = 5_000_000

/** The chapters of the video about a job, and what they were made from. */
export type VideoChapters = {
  readonly chapters: readonly Chapter[]
  /** Whether the owner set them; then captions change them no more. */
  readonly isSet: boolean
  /** What the captions would change in chapters that the owner set; empty where nobody did. */
  readonly changes: readonly ChapterChange[]
  readonly questions: readonly CaptionQuestion[]
  /** When each caption begins, in seconds, and what it says; empty without captions. */
  readonly cues: readonly { readonly seconds: number; readonly text: string }[]
}

/** A job's chapters; none, and no cues, where it has neither captions nor typed marks. */
export async function readVideoChapters(
  journal: Journal,
): Promise<VideoChapters> {
  const db = await database()
  const row = await db.captions.findUnique({
    where: { jobId: journal.job.id },
    select: { text: true, chapters: true, settled: true },
  })
  if (row === null) {
    return { chapters: [], isSet: false, changes: [], questions: [], cues: [] }
  }
  const heard = hear(row.text, journal)
  const set =
    row.chapters === null
      ? undefined
      : known(keptChapters(row.chapters), journal)
  const settled = settledList.parse(JSON.parse(row.settled))
  return {
    ...heard,
    chapters: set ?? heard.chapters,
    isSet: set !== undefined,
    changes: set === undefined ? [] : chapterChanges(set, heard.chapters),
    questions: heard.questions.filter(
      (one) => !settled.includes(settledKey(one.fact, one.stepId)),
    ),
  }
}

/**
 * Keeps a caption file with a job, in place of the one before, and finds the chapters anew. Chapters that the owner set stay
 * as they are, and what was settled stays settled.
 *
 * @returns the chapters and what to ask, or why it is no caption file
 */
export async function keepCaptions(
  jobId: string,
  bytes: Uint8Array,
  now: Instant,
): Promise<Result<VideoChapters>> {
  const text = decodeCaptions(bytes)
  const read = readCaptions(text)
  if (!read.ok) return read
  const journal = await readJournal(jobId)
  if (journal === undefined) return noJob
  const db = await database()
  await db.$transaction(async (transaction) => {
    const before = await transaction.captions.findUnique({
      where: { jobId },
      select: { text: true },
    })
    if (before?.text === text) return
    const columns = { text, keptAt: toDate(now) }
    await transaction.captions.upsert({
      where: { jobId },
      create: { jobId, ...columns },
      update: columns,
      select: { jobId: true },
    })
    await touchJob(transaction, jobId)
  })
  return ok(await readVideoChapters(journal))
}

/**
 * Sets the chapters of a job.
 *
 * @returns refused where they would not be shown as chapters, with what is wrong
 */
export async function setChapters(
  jobId: string,
  chapters: readonly Chapter[],
  now: Instant,
): Promise<Result<undefined>> {
  const [problem] = chapterProblems(chapters)
  if (problem !== undefined) {
    return refused({
      kind: 'invalid',
      detail: english.chapters.problem(problem),
    })
  }
  const text = JSON.stringify(chapters)
  const db = await database()
  return db.$transaction(async (transaction) => {
    const job = await transaction.job.findUnique({
      where: { id: jobId },
      select: { id: true },
    })
    if (job === null) return noJob
    await transaction.captions.upsert({
      where: { jobId },
      create: { jobId, chapters: text, keptAt: toDate(now) },
      update: { chapters: text },
      select: { jobId: true },
    })
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

/** Sets the chapters of a job from typed marks, a line each: `2:45 First coat`. */
export async function setChapterMarks(
  jobId: string,
  text: string,
  now: Instant,
): Promise<Result<undefined>> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return noJob
  const marks = readChapterMarks(text, orderedSteps(journal), journal)
  return marks.ok ? setChapters(jobId, marks.value, now) : marks
}

/**
 * Makes one of the changes that the captions offer in chapters that the owner set.
 *
 * @param key of the change (`changeKey`)
 * @returns refused where it is offered no more, or would leave chapters that are none
 */
export async function takeChapterChange(
  jobId: string,
  key: string,
  now: Instant,
): Promise<Result<undefined>> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return noJob
  const { chapters, changes } = await readVideoChapters(journal)
  const change = changes.find((one) => changeKey(one) === key)
  if (change === undefined) {
    return refused({
      kind: 'conflict',
      detail: 'The chapters have changed since. Look at them again.',
    })
  }
  return setChapters(jobId, withChange(chapters, change), now)
}

/** Goes back to the chapters that the captions give; without captions there are none then. */
export async function unsetChapters(jobId: string): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.captions.updateMany({
      where: { jobId },
      data: { chapters: null },
    })
    await touchJob(transaction, jobId)
  })
}

/** Takes captions and chapters away from a job. */
export async function removeCaptions(jobId: string): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.captions.deleteMany({ where: { jobId } })
    await touchJob(transaction, jobId)
  })
}

/** Asks a question no more. */
export async function settleQuestion(
  jobId: string,
  { fact, step }: SettledQuestion,
): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    const row = await transaction.captions.findUnique({
      where: { jobId },
      select: { settled: true },
    })
    if (row === null) return
    const settled = new Set(settledList.parse(JSON.parse(row.settled)))
    settled.add(settledKey(fact, step))
    await transaction.captions.update({
      where: { jobId },
      data: { settled: JSON.stringify([...settled]) },
      select: { jobId: true },
    })
  })
}

function settledKey(fact: string, stepId: string): string {
  return `${fact} ${stepId}`
}

function orderedSteps(journal: Journal) {
  return stepsInOrder(journal).map(({ step }) => step)
}

function hear(
  text: string | null,
  journal: Journal,
): Pick<VideoChapters, 'chapters' | 'questions' | 'cues'> {
  const read = text === null ? undefined : readCaptions(text)
  if (read?.ok !== true) return { chapters: [], questions: [], cues: [] }
  const { cues } = read.value
  const words = spokenWords(cues)
  const alignment = alignSteps(words, orderedSteps(journal), journal)
  return {
    chapters: planChapters({
      alignment,
      duration: cues.reduce((latest, { end }) => Math.max(latest, end), 0),
      journal,
    }),
    questions: askFromCaptions(words, alignment.starts, journal),
    cues: shownCues(words, cues),
  }
}

/** The cues that say something new, each with the words that it adds; of cues within one second the first. */
function shownCues(
  words: ReturnType<typeof spokenWords>,
  cues: Captions['cues'],
): VideoChapters['cues'] {
  const shown: { seconds: number; text: string }[] = []
  const said = new Map<number, { at: number; count: number }>()
  for (const { cue, at } of words) {
    const kept = said.get(cue) ?? { at, count: 0 }
    kept.count += 1
    said.set(cue, kept)
  }
  for (const [index, { at, count }] of said) {
    const seconds = Math.floor(at)
    if (shown.at(-1)?.seconds === seconds) continue
    const lines = cues[index]?.text.trim().split('\n') ?? []
    const rolls = count < countWords(lines)
    shown.push({
      seconds,
      text: (rolls ? (lines.at(-1) ?? '') : lines.join(' ')).trim(),
    })
  }
  return shown
}

function countWords(lines: readonly string[]): number {
  return lines
    .join(' ')
    .split(/\s+/)
    .filter((word) => word !== '').length
}

function keptChapters(text: string): readonly Chapter[] {
  return chapterList.parse(JSON.parse(text)).map(({ stepId, ...rest }) => ({
    ...rest,
    ...(stepId !== undefined && { stepId }),
  }))
}

/** Chapters that were set, without steps that the journal has no more. */
function known(
  chapters: readonly Chapter[],
  { steps }: Journal,
): readonly Chapter[] {
  return chapters.map(({ stepId, ...rest }) => ({
    ...rest,
    ...(stepId !== undefined &&
      steps.some(({ id }) => id === stepId) && { stepId }),
  }))
}
