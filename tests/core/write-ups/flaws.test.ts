import { expect, test } from 'vitest'
import { flawsOf, isFlawless, unplacedFlaws } from '#core/write-ups/flaws'
import { journal, photo, piece } from './jobs.ts'

const chest = piece('chest', 'chest', ['top'], {
  flaws: '- A scratch.\r\n\n  a dent  \nnone\nA dent',
})
const stool = piece('stool', 'stool', ['seat'], { flaws: 'None found.' })
const both = journal('Two', [chest, stool], [], [])

test('each line is a flaw, said once, and "none" is none', () => {
  expect(flawsOf(chest, both).map(({ words }) => words)).toEqual([
    'A scratch.',
    'a dent',
  ])
  expect(flawsOf(stool, both)).toEqual([])
  expect([isFlawless(chest, both), isFlawless(stool, both)]).toEqual([
    false,
    true,
  ])
})

test('a photo that shows a flaw names it even where nobody typed it', () => {
  const shown = {
    ...both,
    photos: [
      photo('p1', 'after', ['chest-top'], { flaw: 'a scratch' }),
      photo('p2', 'after', ['stool-seat'], { flaw: 'a burn' }),
      photo('p3', 'after', [], { flaw: 'a chip' }),
    ],
  }
  expect(flawsOf(chest, shown)[0]?.photoIds).toEqual(['p1'])
  expect(flawsOf(stool, shown)).toEqual([{ words: 'a burn', photoIds: ['p2'] }])
  expect(isFlawless(stool, shown)).toBe(false)
  expect(unplacedFlaws(shown)).toEqual([{ words: 'a chip', photoIds: ['p3'] }])
})
