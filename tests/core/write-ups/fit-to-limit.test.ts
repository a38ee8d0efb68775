import { expect, test } from 'vitest'
import {
  firstThatFits,
  fitToLimit,
  leastRoom,
  lengthInBytes,
  lengthInUnits,
  paragraphsText,
} from '#core/write-ups/fit-to-limit'
import type { Paragraph } from '#core/write-ups/write-up'

const sentence = (text: string, importance: number) => ({
  key: text,
  text,
  facts: [],
  importance,
})

const paragraphs: readonly Paragraph[] = [
  {
    heading: 'Head',
    layout: 'lines',
    sentences: [sentence('One.', 2), sentence('Two.', 1)],
  },
  { layout: 'prose', sentences: [sentence('Three.', 3), sentence('Four.', 1)] },
]

test('lines stand below their heading, prose in a row, paragraphs apart', () => {
  expect(paragraphsText(paragraphs)).toBe('Head\nOne.\nTwo.\n\nThree. Four.')
})

test('of two that matter least the later goes first', () => {
  const { leftOut, paragraphs: kept } = fitToLimit(
    paragraphs,
    27,
    lengthInUnits,
  )
  expect(leftOut.map(({ text }) => text)).toEqual(['Four.'])
  expect(paragraphsText(kept)).toBe('Head\nOne.\nTwo.\n\nThree.')
})

test('a heading does not outlive its sentences', () => {
  expect(
    paragraphsText(fitToLimit(paragraphs, 6, lengthInUnits).paragraphs),
  ).toBe('Three.')
})

test('a sentence is told in fewer words before one that is worth more than those words goes', () => {
  const { paragraphs: kept, leftOut } = fitToLimit(
    [
      {
        layout: 'prose',
        sentences: [
          {
            ...sentence('The whole caution.', 9),
            shorter: [
              { text: 'A caution.', worth: 2 },
              { text: 'Beware.', worth: 5 },
            ],
          },
          sentence('More.', 3),
        ],
      },
    ],
    16,
    lengthInUnits,
  )
  expect(paragraphsText(kept)).toBe('A caution. More.')
  expect(leftOut).toEqual([])
})

test('the room that is left over goes to longer words again', () => {
  const { paragraphs: kept, leftOut } = fitToLimit(
    [
      {
        layout: 'prose',
        sentences: [
          {
            ...sentence('The whole caution.', 9),
            shorter: [{ text: 'Beware.', worth: 2 }],
          },
          sentence('Something long about how it was painted.', 3),
        ],
      },
    ],
    30,
    lengthInUnits,
  )
  expect(paragraphsText(kept)).toBe('The whole caution.')
  expect(leftOut.map(({ importance }) => importance)).toEqual([3])
})

test('sentences that belong together turn to one wording at once, and it is told once', () => {
  const flaw = (text: string) => ({
    ...sentence(text, 9),
    together: 'flaws',
    shorter: [{ text: 'Two flaws: ask.', worth: 4 }],
  })
  const flaws = [
    {
      heading: 'Condition',
      layout: 'lines' as const,
      sentences: [flaw('A scratch on the top.'), flaw('A dent in a leg.')],
    },
  ]
  const whole = fitToLimit(flaws, 48, lengthInUnits)
  expect(paragraphsText(whole.paragraphs)).toBe(
    'Condition\nA scratch on the top.\nA dent in a leg.',
  )
  for (const limit of [25, 35, 47]) {
    const { paragraphs: kept } = fitToLimit(flaws, limit, lengthInUnits)
    expect(paragraphsText(kept)).toBe('Condition\nTwo flaws: ask.')
  }
  expect(fitToLimit(flaws, 24, lengthInUnits).paragraphs).toEqual([])
})

test('the least room is that of the fewest words', () => {
  const fixed = {
    ...sentence('The whole caution.', 9),
    fixed: true as const,
    shorter: [{ text: 'Beware.', worth: 2 }],
  }
  expect(
    leastRoom(
      [{ layout: 'prose', sentences: [fixed, sentence('More.', 3)] }],
      lengthInUnits,
      (one) => one.fixed === true,
    ),
  ).toBe('Beware.'.length)
})

test('bytes and units are told apart', () => {
  expect([lengthInUnits('é🪑€'), lengthInBytes('é🪑€')]).toEqual([4, 9])
})

test('a title falls back to a shorter one, and is cut only between words', () => {
  expect(firstThatFits(['a long title', 'short'], 12)).toBe('a long title')
  expect(firstThatFits(['a long title', 'short'], 11)).toBe('short')
  expect(firstThatFits(['chest, of drawers'], 8)).toBe('chest')
  expect(firstThatFits(['chest'], 3)).toBe('')
})
