import { expect, test } from 'vitest'
import {
  firstThatFits,
  fitToLimit,
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

test('bytes and units are told apart', () => {
  expect([lengthInUnits('é🪑€'), lengthInBytes('é🪑€')]).toEqual([4, 9])
})

test('a title falls back to a shorter one, and is cut only between words', () => {
  expect(firstThatFits(['a long title', 'short'], 12)).toBe('a long title')
  expect(firstThatFits(['a long title', 'short'], 11)).toBe('short')
  expect(firstThatFits(['chest, of drawers'], 8)).toBe('chest')
  expect(firstThatFits(['chest'], 3)).toBe('')
})
