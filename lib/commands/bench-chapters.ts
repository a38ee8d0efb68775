import { readdirSync } from 'node:fs'
import path from 'node:path'
import { type Alignment, alignSteps } from '#core/captions/align-steps'
import { shortestChapter } from '#core/captions/chapter-length'
import { readCaptions } from '#core/captions/read-captions'
import { type SpokenWord, spokenWords } from '#core/captions/spoken-words'
import {
  type Transcript,
  readTranscript,
  transcriptSets,
} from './read-transcript'

/** At most so far from where a step's telling begins, a chapter is right: seconds. */
const tolerance = 10
const target = 0.9
const bands = [0, 0.5, 0.8, 0.95, 1.01] as const

/**
 * How many steps of made-up transcripts get a chapter within ten seconds of where their telling begins: a line of JSON for
 * each transcript, and one for each set: those that were in view while the alignment was made, and those that were not.
 * Beside the share stands how far confidence can be trusted.
 */
export function benchChapters(): Promise<void> {
  const names = readdirSync(path.join('tests', 'fixtures', 'transcripts'))
    .filter((file) => file.endsWith('.txt'))
    .map((file) => file.slice(0, -'.txt'.length))
  const measured = names.map(measure)
  for (const { name, set, style, figures } of measured) {
    print({ transcript: name, set, style, ...figures })
  }
  for (const set of transcriptSets) {
    const all = measured.filter((one) => one.set === set)
    const sum = (count: (one: (typeof all)[number]) => number) =>
      all.reduce((total, one) => total + count(one), 0)
    const steps = sum(({ figures }) => figures.steps)
    const right = sum(({ figures }) => figures.right)
    print({
      set,
      transcripts: all.length,
      steps,
      right,
      share: rounded(right / steps),
      target,
      chaptersOfNoStep: sum(({ figures }) => figures.chaptersOfNoStep),
      confidence: trust(all.flatMap((one) => one.chapters)),
    })
  }
  print(measureLong(names.map(readTranscript)))
  return Promise.resolve()
}

/**
 * How the time of the alignment grows with a video: all tellings, one after the other, against the first quarter of them,
 * both with the steps of one job. A ratio of times over a ratio of words of about 1 is in proportion.
 */
function measureLong(transcripts: readonly Transcript[]) {
  const { journal } = transcripts[0] ?? { journal: undefined }
  if (journal === undefined) return {}
  const time = (count: number) => {
    const words = transcripts
      .slice(0, count)
      .reduce<SpokenWord[]>((before, { captions }) => {
        const read = readCaptions(captions)
        if (!read.ok) throw new Error(read.refusal.detail)
        const from = before.at(-1)?.end ?? 0
        for (const word of spokenWords(read.value.cues)) {
          before.push({ ...word, at: word.at + from, end: word.end + from })
        }
        return before
      }, [])
    const times = [1, 2, 3].map(() => {
      const begin = performance.now()
      alignSteps(words, journal.steps, journal)
      return performance.now() - begin
    })
    return { words, milliseconds: Math.min(...times) }
  }
  const short = time(Math.ceil(transcripts.length / 4))
  const long = time(transcripts.length)
  return {
    long: true,
    hours: rounded((long.words.at(-1)?.end ?? 0) / 3600),
    steps: journal.steps.length,
    milliseconds: rounded(long.milliseconds),
    timesOverWords: rounded(
      long.milliseconds /
        short.milliseconds /
        (long.words.length / short.words.length),
    ),
  }
}

function print(figures: Readonly<Record<string, unknown>>): void {
  console.log(JSON.stringify({ bench: 'chapters', ...figures }))
}

function measure(name: string) {
  const { set, style, journal, captions, starts } = readTranscript(name)
  const read = readCaptions(captions)
  if (!read.ok) throw new Error(read.refusal.detail)
  const words = spokenWords(read.value.cues)
  const begin = performance.now()
  const alignment = alignSteps(words, journal.steps, journal)
  const milliseconds = performance.now() - begin
  const chapters = judged(alignment, starts)
  const told = [...starts.keys()].filter((id) => id !== 'end')
  return {
    name,
    set,
    style,
    chapters,
    figures: {
      words: words.length,
      minutes: rounded((words.at(-1)?.end ?? 0) / 60),
      steps: told.length,
      right: chapters.filter(({ right }) => right).length,
      missed: told.filter(
        (id) => !chapters.some((one) => one.id === id && one.right),
      ),
      chaptersOfNoStep: chapters.filter(({ id }) => !starts.has(id)).length,
      // Chapters must last ten seconds, so of two closer beginnings only one can be right.
      tooCloseToTell: [...starts.values()].filter(
        (at, i, all) => at - (all[i - 1] ?? -Infinity) < shortestChapter,
      ).length,
      milliseconds: rounded(milliseconds),
    },
  }
}

type Judged = {
  readonly id: string
  readonly confidence: number
  readonly right: boolean
}

function judged(
  { starts: found }: Alignment,
  starts: ReadonlyMap<string, number>,
): readonly Judged[] {
  return found.map(({ step, at, confidence }) => ({
    id: step.id,
    confidence,
    right: Math.abs(at - (starts.get(step.id) ?? Infinity)) <= tolerance,
  }))
}

/** In bands of confidence, how many chapters there are and how many of them are right. */
function trust(chapters: readonly Judged[]) {
  return bands.slice(0, -1).map((from, i) => {
    const to = bands[i + 1] ?? 1
    const all = chapters.filter(
      ({ confidence }) => confidence >= from && confidence < to,
    )
    return {
      from,
      chapters: all.length,
      right: all.filter(({ right }) => right).length,
    }
  })
}

function rounded(value: number): number {
  return Number(value.toFixed(3))
}
