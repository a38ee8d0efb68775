import { expect, test } from 'vitest'
import type { Photo } from '#core/journal/journal'
import { pairNames } from '#core/pairs/pair-names'
import { photo, sideboardAndBench } from '../write-ups/jobs.ts'

const pieces = sideboardAndBench.pieces

/** The names of pairs, each given by the view and the surfaces of its two photos. */
function namesOf(
  pairs: readonly (readonly [
    view: string | undefined,
    surfaces: readonly string[],
    afterView?: string,
  ])[],
) {
  const photos: Photo[] = pairs.flatMap(([view, surfaces, other], index) => [
    photo(`b${index}`, 'before', surfaces, view === undefined ? {} : { view }),
    photo(
      `a${index}`,
      'after',
      surfaces,
      (other ?? view) === undefined ? {} : { view: other ?? view ?? '' },
    ),
  ])
  return pairNames(
    { photos, pieces },
    pairs.map((_, index) => ({ before: `b${index}`, after: `a${index}` })),
  )
}

test('a pair is called by the view that was typed', () => {
  expect(namesOf([['front', ['sideboard-body']]])).toEqual([
    { name: 'front', view: 'front', guess: 'body' },
  ])
})

test('a view nobody typed is guessed from what both photos show', () => {
  expect(
    namesOf([
      [undefined, ['sideboard-hardware']],
      [undefined, ['sideboard-drawers']],
      [undefined, ['sideboard-body', 'sideboard-top']],
    ]),
  ).toEqual([
    { name: 'hardware', guess: 'hardware' },
    { name: 'inside', guess: 'inside' },
    { name: 'body and top', guess: 'body and top' },
  ])
})

test('pairs of which the journal says the same can still be told apart, and no guess makes two views one', () => {
  expect(
    namesOf([
      [undefined, ['sideboard-top']],
      [undefined, ['sideboard-top']],
      [undefined, []],
      [undefined, ['sideboard-body', 'sideboard-top', 'sideboard-hardware']],
    ]),
  ).toEqual([
    { name: 'top 1' },
    { name: 'top 2' },
    { name: 'pair' },
    { name: 'Sideboard' },
  ])
})

test('a view that is typed on one photo, or differs, does not name both', () => {
  expect(namesOf([['front', [], 'top']])).toEqual([{ name: 'pair' }])
  expect(namesOf([[undefined, [], 'left side']])).toEqual([
    { name: 'left side', view: 'left side' },
  ])
})

test('what the photos say now wins over what was said when the pair was found', () => {
  const photos = [
    photo('b', 'before', [], { view: 'left side' }),
    photo('a', 'after', [], { view: 'Left-side' }),
  ]
  const [named] = pairNames({ photos, pieces }, [
    { before: 'b', after: 'a', view: 'front' },
  ])
  expect(named?.name).toBe('left side')
})
