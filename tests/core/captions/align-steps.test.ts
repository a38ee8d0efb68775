/** Against transcripts of our own whose starts are known; `tests/fixtures/transcripts/README.md` tells how they were made. */
import { readdirSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { type Alignment, alignSteps } from '#core/captions/align-steps'
import { planChapters } from '#core/captions/plan-chapters'
import { chapterProblems } from '#core/captions/chapter'
import { readCaptions } from '#core/captions/read-captions'
import { spokenWords } from '#core/captions/spoken-words'
import {
  readTranscript,
  transcriptSets,
} from '../../../lib/commands/read-transcript'

function hear(name: string) {
  const transcript = readTranscript(name)
  const read = readCaptions(transcript.captions)
  if (!read.ok) throw new Error(read.refusal.detail)
  const words = spokenWords(read.value.cues)
  const { journal } = transcript
  const alignment = alignSteps(words, journal.steps, journal)
  return { ...transcript, words, alignment }
}

const names = readdirSync(path.join('tests', 'fixtures', 'transcripts'))
  .filter((file) => file.endsWith('.txt'))
  .map((file) => file.slice(0, -'.txt'.length))

function counted(
  starts: ReadonlyMap<string, number>,
  { starts: found }: Alignment,
): { readonly told: number; readonly right: number } {
  const told = [...starts].filter(([id]) => id !== 'end')
  const right = told.filter(([id, at]) =>
    found.some((one) => one.step.id === id && Math.abs(one.at - at) <= 10),
  )
  return { told: told.length, right: right.length }
}

test.each(transcriptSets)(
  'nine of ten steps of all %s transcripts have a chapter within ten seconds',
  (set) => {
    const all = names
      .map(hear)
      .filter((one) => one.set === set)
      .map(({ starts, alignment }) => counted(starts, alignment))
    const sum = (of: (one: (typeof all)[number]) => number) =>
      all.reduce((total, one) => total + of(one), 0)
    expect(
      sum(({ right }) => right) / sum(({ told }) => told),
    ).toBeGreaterThanOrEqual(0.9)
  },
)

test('steps told after their turn have their chapters where they are told', () => {
  const { alignment, starts } = hear('two-ends-hall-bench')
  const ids = alignment.starts.map(({ step }) => step.id)
  // The frame is painted before its joint is glued, and the seat is sanded last.
  expect(ids.indexOf('glue')).toBeGreaterThan(ids.indexOf('black2'))
  expect(ids.indexOf('sand1')).toBeGreaterThan(ids.indexOf('glue'))
  for (const id of ['black2', 'glue', 'sand1']) {
    const at = alignment.starts.find(({ step }) => step.id === id)?.at ?? 0
    expect(Math.abs(at - (starts.get(id) ?? Infinity))).toBeLessThanOrEqual(10)
  }
})

describe.each(names)('%s', (name) => {
  const { alignment, starts, words, journal } = hear(name)

  test('has a chapter within ten seconds of most of its steps', () => {
    const { told, right } = counted(starts, alignment)
    expect(right / told).toBeGreaterThanOrEqual(0.75)
  })

  test('has no chapter for a step that is not spoken of', () => {
    expect(
      alignment.starts
        .map(({ step }) => step.id)
        .filter((id) => !starts.has(id)),
    ).toEqual([])
  })

  test('has sound chapters, and none in the foretaste', () => {
    const duration = words.at(-1)?.end ?? 0
    const chapters = planChapters({ alignment, duration, journal })
    expect(chapterProblems(chapters, duration)).toEqual([])
    const first = Math.min(...starts.values())
    expect(chapters[1]?.seconds).toBeGreaterThanOrEqual(first - 10)
  })
})

test('silence, or a job without steps, has no beginnings', () => {
  const { journal } = readTranscript('tidy-sideboard')
  expect(alignSteps([], journal.steps, journal)).toEqual({ starts: [] })
  const { words } = hear('tidy-sideboard')
  expect(alignSteps(words, [], journal)).toEqual({ starts: [] })
})

test('talk of other things has no beginnings', () => {
  const words = spokenWords([
    {
      start: 0,
      end: 60,
      settings: {},
      text: '',
      parts: [
        {
          text: 'Today we talk about the weather in the hills. It rained for most of the week and the river rose. Then the sun came out and we walked to the mill and had tea with our friends. They told us about their garden.',
        },
      ],
    },
  ])
  const { journal } = readTranscript('tidy-sideboard')
  expect(alignSteps(words, journal.steps, journal).starts).toEqual([])
})

test('captions of nothing but music have no beginnings', () => {
  const read = readCaptions(
    'WEBVTT\n\n00:00.000 --> 00:09.000\n[Music]\n\n00:10.000 --> 10:00.000\n♪ ♪',
  )
  if (!read.ok) throw new Error(read.refusal.detail)
  const { journal } = readTranscript('tidy-sideboard')
  const words = spokenWords(read.value.cues)
  expect(alignSteps(words, journal.steps, journal)).toEqual({ starts: [] })
})

test('a job of one step has its one beginning, and no chapters for want of three', () => {
  const { journal, words, starts } = hear('tidy-sideboard')
  const primed = journal.steps.filter(({ kind }) => kind === 'prime')
  const alignment = alignSteps(words, primed, journal)
  const [only] = alignment.starts
  expect(alignment.starts).toHaveLength(1)
  const told = starts.get(only?.step.id ?? '')
  expect(Math.abs((only?.at ?? 0) - (told ?? 0))).toBeLessThanOrEqual(10)
  const duration = words.at(-1)?.end ?? 0
  expect(
    planChapters({
      alignment: { starts: alignment.starts },
      duration,
      journal: { ...journal, steps: primed },
    }),
  ).toEqual([])
})

test('steps told in the very opposite order still have sound chapters', () => {
  const { journal, words } = hear('tidy-sideboard')
  const steps = journal.steps.toReversed()
  const alignment = alignSteps(words, steps, journal)
  const times = alignment.starts.map(({ at }) => at)
  expect(times).toEqual(times.toSorted((one, other) => one - other))
  expect(new Set(alignment.starts.map(({ step }) => step.id)).size).toBe(
    times.length,
  )
  const duration = words.at(-1)?.end ?? 0
  const chapters = planChapters({ alignment, duration, journal })
  if (chapters.length > 0)
    expect(chapterProblems(chapters, duration)).toEqual([])
})

test('a whole day of talk about other things before and after moves no beginning off its telling', () => {
  const { journal, words, starts } = hear('tidy-sideboard')
  const idle = (from: number, count: number) =>
    Array.from({ length: count }, (_, i) => ({
      text:
        ['it', 'was', 'a', 'fine', 'day', 'and', 'we', 'walked'][i % 8] ?? '',
      at: from + i * 0.5,
      end: from + i * 0.5 + 0.4,
      cue: 0,
      opens: i % 8 === 0,
    }))
  const before = 3600
  const told = words.map((word) => ({
    ...word,
    at: word.at + before,
    end: word.end + before,
  }))
  const end = told.at(-1)?.end ?? 0
  const long = [...idle(0, before * 2), ...told, ...idle(end + 1, 3600 * 4)]
  const { starts: found } = alignSteps(long, journal.steps, journal)
  expect(found.length).toBeGreaterThanOrEqual(journal.steps.length * 0.7)
  for (const { step, at } of found) {
    expect(
      Math.abs(at - before - (starts.get(step.id) ?? Infinity)),
    ).toBeLessThanOrEqual(10)
  }
})
