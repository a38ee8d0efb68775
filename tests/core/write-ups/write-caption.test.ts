import { expect, test } from 'vitest'
import { writeCaption } from '#core/write-ups/write-caption'
import { bareFacts, sideboardAndBench } from './jobs.ts'

const caption = (limit: number, journal = sideboardAndBench) =>
  writeCaption({ journal, limit }).text

test('a caption for little room tells in fewer words what it is, before it says nothing', () => {
  const pieces = 'An oak veneer sideboard and an oak bench'
  expect(caption(10_000)).toContain(
    `${pieces}, painted deep teal, with the top`,
  )
  const short = `${pieces}, painted deep teal.`
  expect(caption(short.length)).toBe(short)
  expect(caption(short.length - 1)).toBe(`${pieces}.`)
  expect(caption(pieces.length + 1)).toBe(`${pieces}.`)
  expect(caption(pieces.length)).not.toContain('oak bench')
  expect(caption(60, { ...bareFacts, pieces: [] })).not.toMatch(/^An? /)
})

test('the owner’s own words for what it is are never exchanged for shorter ones', () => {
  const [summary] = writeCaption({
    journal: sideboardAndBench,
    limit: 10_000,
  }).paragraphs.flatMap(({ sentences }) => sentences)
  if (summary === undefined) throw new Error('it says nothing')
  const edits = [
    {
      key: summary.key,
      words: 'Teal and walnut.',
      madeOn: { text: summary.text, facts: summary.facts },
    },
  ]
  const { text, paragraphs } = writeCaption({
    journal: sideboardAndBench,
    limit: 60,
    edits,
  })
  expect(text).toMatch(/^Teal and walnut\./)
  expect(paragraphs[0]?.sentences[0]?.edit?.changed).toBe(false)
})
