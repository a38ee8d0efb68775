import { describe, expect, test } from 'vitest'
import type { PhotoRole } from '#core/journal/vocabulary'
import type { PairPhoto } from '#core/pairs/pair-photo'
import { sheetPair } from '#core/sheets/sheet-pair'
import { exactly } from '#core/time/span'
import { instant } from '#core/units'

let clock = 0

/** Photos in the order in which they were taken. */
function photo(id: string, role: PhotoRole, view?: string): PairPhoto {
  clock += 1
  const taken = exactly(instant(clock * 60_000))
  return view === undefined ? { id, role, taken } : { id, role, view, taken }
}

function ids(
  photos: readonly PairPhoto[],
  chosen = {},
  known: Parameters<typeof sheetPair>[2] = [],
  separated: Parameters<typeof sheetPair>[3] = [],
) {
  const pair = sheetPair(photos, chosen, known, separated)
  return pair === undefined ? undefined : [pair.before.id, pair.after.id]
}

describe('the pair that a sheet shows', () => {
  test('is of one view, and the front before any other', () => {
    const photos = [
      photo('b-top', 'before', 'top'),
      photo('b-front', 'before', 'front'),
      photo('b-left', 'before', 'left-three-quarter'),
      photo('p', 'progress', 'front'),
      photo('a-left', 'after', 'left-three-quarter'),
      photo('a-top', 'after', 'top'),
      photo('a-front', 'after', 'front'),
    ]
    expect(ids(photos)).toEqual(['b-front', 'a-front'])
    expect(ids(photos.filter((one) => one.id !== 'a-front'))).toEqual([
      'b-left',
      'a-left',
    ])
  })

  test('is the first before and the last after of its view, in whatever order they come', () => {
    const photos = [
      photo('b1', 'before', 'front'),
      photo('b2', 'before', 'front'),
      photo('a1', 'after', 'front'),
      photo('a2', 'after', 'front'),
    ]
    expect(ids(photos)).toEqual(['b1', 'a2'])
    expect(ids(photos.toReversed())).toEqual(['b1', 'a2'])
  })

  test.each([
    ['Left three-quarter', 'left-three-quarter'],
    ['FRONT ', 'front'],
    ['box_front', 'Box  front'],
  ])('may call its view %j and %j', (one, other) => {
    expect(
      ids([photo('b', 'before', one), photo('a', 'after', other)]),
    ).toEqual(['b', 'a'])
  })

  test('may have a view that nobody named', () => {
    expect(ids([photo('b', 'before'), photo('a', 'after')])).toEqual(['b', 'a'])
  })

  test('is never guessed among photos whose views nobody named', () => {
    const photos = [
      photo('b-one', 'before'),
      photo('b-two', 'before'),
      photo('a-one', 'after'),
      photo('a-two', 'after'),
    ]
    expect(ids(photos)).toBeUndefined()
    expect(ids(photos.slice(1))).toBeUndefined()
    expect(ids(photos, { before: 'b-two' })).toBeUndefined()
    const known = [{ before: 'b-two', after: 'a-one' }]
    expect(ids(photos, {}, known)).toEqual(['b-two', 'a-one'])
    expect(ids(photos, { after: 'a-one' }, known)).toEqual(['b-two', 'a-one'])
    expect(ids(photos, { before: 'b-one' }, known)).toBeUndefined()
    expect(
      ids(photos, {}, [{ before: 'gone', after: 'a-one' }]),
    ).toBeUndefined()
  })

  test('is none that the owner separated, unless both are chosen', () => {
    const photos = [
      photo('b-front', 'before', 'front'),
      photo('b-top', 'before', 'top'),
      photo('a-front', 'after', 'front'),
      photo('a-top', 'after', 'top'),
    ]
    const front = { before: 'b-front', after: 'a-front' }
    const top = { before: 'b-top', after: 'a-top' }
    expect(ids(photos, {}, [], [front])).toEqual(['b-top', 'a-top'])
    expect(ids(photos, {}, [], [front, top])).toBeUndefined()
    expect(ids(photos, front, [], [front])).toEqual(['b-front', 'a-front'])
    const unnamed = [photo('b', 'before'), photo('a', 'after')]
    expect(ids(unnamed, {}, [], [{ before: 'b', after: 'a' }])).toBeUndefined()
  })

  test('has a named view rather than none', () => {
    expect(
      ids([
        photo('b', 'before'),
        photo('b-low', 'before', 'low'),
        photo('a', 'after'),
        photo('a-low', 'after', 'low'),
      ]),
    ).toEqual(['b-low', 'a-low'])
  })

  test.each([
    ['no after', [photo('b', 'before', 'front')]],
    ['no before', [photo('a', 'after', 'front')]],
    [
      'two views that differ',
      [photo('b', 'before', 'front'), photo('a', 'after', 'top')],
    ],
    ['nothing but progress', [photo('p', 'progress', 'front')]],
  ])('is not there with %s', (_name, photos) => {
    expect(ids(photos)).toBeUndefined()
  })
})

describe('a photo that the owner chose', () => {
  const photos = [
    photo('b-front', 'before', 'front'),
    photo('b-top', 'before', 'top'),
    photo('p', 'progress', 'low'),
    photo('a-front', 'after', 'front'),
    photo('a-top', 'after', 'top'),
  ]

  test('brings the other of its view', () => {
    expect(ids(photos, { before: 'b-top' })).toEqual(['b-top', 'a-top'])
    expect(ids(photos, { after: 'a-top' })).toEqual(['b-top', 'a-top'])
  })

  test('may be of any role and view', () => {
    expect(ids(photos, { before: 'p', after: 'a-top' })).toEqual(['p', 'a-top'])
    expect(ids(photos, { before: 'p' })).toBeUndefined()
    expect(ids(photos.slice(0, 4), { before: 'p' })).toEqual(['p', 'a-front'])
  })
})
