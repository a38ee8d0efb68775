/** Against transcripts of our own whose starts are known; `tests/fixtures/transcripts/README.md` tells how they were made. */
import { describe, expect, test } from 'vitest'
import { alignSteps } from '#core/captions/align-steps'
import { planChapters } from '#core/captions/plan-chapters'
import { chapterProblems } from '#core/captions/chapter'
import { readCaptions } from '#core/captions/read-captions'
import { spokenWords } from '#core/captions/spoken-words'
import { readTranscript } from '../../../lib/commands/read-transcript'

function hear(name: string) {
  const transcript = readTranscript(name)
  const read = readCaptions(transcript.captions)
  if (!read.ok) throw new Error(read.refusal.detail)
  const words = spokenWords(read.value.cues)
  const { journal } = transcript
  const alignment = alignSteps(words, journal.steps, journal)
  return { ...transcript, words, alignment }
}

const names = [
  'auto-cabinet',
  'couple-buffet',
  'diary-wardrobe',
  'journal-dresser',
  'lesson-tray',
  'live-answers-nightstands',
  'misheard-bureau',
  'misheard-hall-table',
  'pine-box',
  'plain-words-box',
  'podcast-bookcase',
  'quiet-desk',
  'rambling-dresser',
  'redo-console',
  'shop-chairs',
  'simple-words-stool',
  'sold-set',
  'steps-table',
  'teacher-dining-chair',
  'terse-chair',
  'tidy-sideboard',
  'two-pieces',
]

describe.each(names)('%s', (name) => {
  const { alignment, starts, words, journal } = hear(name)

  test('has a chapter within ten seconds of most of its steps', () => {
    const told = [...starts].filter(([id]) => id !== 'end')
    const right = told.filter(([id, at]) =>
      alignment.starts.some(
        (one) => one.step.id === id && Math.abs(one.at - at) <= 10,
      ),
    )
    expect(right.length / told.length).toBeGreaterThanOrEqual(0.75)
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
