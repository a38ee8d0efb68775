import { describe, expect, test } from 'vitest'
import { askFromCaptions } from '#core/captions/ask-from-captions'
import { spokenWords } from '#core/captions/spoken-words'
import { step } from '../write-ups/jobs'
import type { Step } from '#core/journal/journal'

/** What is asked when one sentence is said during a step. */
function asked(text: string, during: Step, others: readonly Step[] = []) {
  const words = spokenWords([
    { start: 60, end: 80, settings: {}, text, parts: [{ text }] },
  ])
  return askFromCaptions(words, [{ step: during, at: 55, confidence: 1 }], {
    steps: [during, ...others],
  }).map(({ fact, values }) => [fact, ...values])
}

const at = '2026-10-22T10:00'

describe('asked after', () => {
  test.each([
    [
      'sand',
      'I went over it with 120 grit, then one eighty grit',
      ['grit', 120, 180],
    ],
    ['scuff', 'a light sand with two twenty', ['grit', 220]],
    ['coat', 'I thinned it with about ten percent water', ['dilution', 10]],
    ['prime', 'four parts primer to one part water', ['dilution', 25]],
    ['coat', 'I water it down fifty fifty for this', ['dilution', 100]],
    ['strip', 'I left it on for thirty minutes', ['dwell', 30]],
    ['strip', 'let that sit for half an hour', ['dwell', 30]],
    ['strip', 'you leave that for two hours', ['dwell', 120]],
    ['coat', 'I gave it three coats of paint', ['coats', 3]],
    ['seal', 'I put on three thin coats with a brush', ['coats', 3]],
  ] as const)('a %s: "%s"', (kind, text, question) => {
    expect(asked(text, step('s', kind, 'top', at))).toEqual([question])
  })

  test.each([
    ['sand', 'I would never use 80 grit on this'],
    ['sand', 'that took thirty minutes and 120 screws'],
    ['coat', 'it was ten percent cheaper'],
    ['strip', 'leave it to dry for two hours'],
    ['prime', 'I used 120 grit before'],
  ] as const)('not: a %s: "%s"', (kind, text) => {
    expect(asked(text, step('s', kind, 'top', at))).toEqual([])
  })

  test('nothing that the journal has', () => {
    expect(
      asked('with 120 grit', step('s', 'sand', 'top', at, { grit: 100 })),
    ).toEqual([])
    expect(
      asked(
        'thinned by ten percent with water',
        step('s', 'coat', 'top:1', at, { thinningPercent: 5 }),
      ),
    ).toEqual([])
    expect(
      asked(
        'left for thirty minutes',
        step('s', 'strip', 'top', at, { note: 'Left for 30 min.' }),
      ),
    ).toEqual([])
    expect(
      asked('two coats of paint', step('s', 'coat', 'top:1', at), [
        step('t', 'coat', 'top:2', at),
      ]),
    ).toEqual([])
  })
})

test('a question has the words and the time', () => {
  const text = 'Now I left it on for thirty minutes.'
  const strip = step('s', 'strip', 'top', at)
  const [question] = askFromCaptions(
    spokenWords([
      { start: 61, end: 65, settings: {}, text, parts: [{ text }] },
    ]),
    [{ step: strip, at: 61, confidence: 1 }],
    { steps: [strip] },
  )
  expect(question?.words).toContain('left it on for thirty minutes')
  expect(question?.question).toBe('Was it left on for 30 min?')
  expect(question?.seconds).toBeGreaterThanOrEqual(61)
  expect(question?.seconds).toBeLessThan(65)
})
