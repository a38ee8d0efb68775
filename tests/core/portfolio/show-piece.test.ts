import { describe, expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import {
  type PieceChoice,
  pairsOfPiece,
  proposedChoice,
  showPiece,
  stepWords,
} from '#core/portfolio/show-piece'
import { alderYard, local, photo, product, step } from '../write-ups/jobs'

const body = { id: 'body', name: 'body' }
const top = { id: 'top', name: 'top' }
const seat = { id: 'seat', name: 'seat' }

const chest = {
  id: 'chest',
  name: 'chest',
  kind: 'Chest of drawers',
  widthMillimetres: 900,
  surfaces: [body, top],
}
const stool = {
  id: 'stool',
  name: 'SECRET stool',
  kind: 'stool',
  surfaces: [seat],
}

const journal: Journal = {
  job: {
    id: 'job',
    title: 'SECRET job',
    createdAt: 0 as Journal['job']['createdAt'],
    askingPriceMinor: 26_000,
    client: 'SECRET client',
    brief: 'SECRET brief',
    collection: 'SECRET street',
  },
  pieces: [chest, stool],
  photos: [
    photo('b', 'before', ['body'], { view: 'front' }),
    photo('p', 'progress', ['body'], { stepId: 'paint' }),
    photo('a', 'after', ['body'], { view: 'front' }),
    photo('a2', 'after', ['top', 'seat'], { view: 'top' }),
    photo('s', 'after', ['seat'], { view: 'front' }),
  ],
  steps: [
    step('paint', 'coat', 'body:1 seat:1', '2026-03-01T10:00', {
      productId: 'enamel',
      note: 'SECRET note',
      photoIds: ['p'],
    }),
    step('wax', 'wax', 'top:1', '2026-03-02T10:00', { productId: 'wax' }),
    step('oil', 'seal', 'seat:1', '2026-03-03T10:00', { note: 'SECRET' }),
  ],
  products: [
    product(
      'enamel',
      'waterborne enamel, deep teal',
      'paint',
      'waterborne-acrylic',
      {},
      { link: 'https://secret.example' },
    ),
    product('wax', 'paste wax', 'wax', 'wax'),
  ],
  cameras: [],
  air: [],
}

const pair = {
  id: 'front',
  before: 'b',
  after: 'a',
  view: 'front',
  homography: [1, 0, 0, 0, 1, 0, 0, 0, 1],
} as const
const pairs = [pair, { id: 'stool', before: 'b', after: 's' }]

const everything: PieceChoice = {
  title: 'Chest in teal',
  story: 'Found in a barn.\n\nNow it is\nteal.',
  pairs: ['front', 'stool', 'gone'],
  photos: ['a', 'a2', 's', 'gone'],
  steps: ['paint', 'wax', 'oil', 'gone'],
  finish: true,
  materials: true,
  size: true,
  price: 'asking',
  contact: true,
}

const nothing: PieceChoice = {
  ...everything,
  story: '',
  pairs: [],
  photos: [],
  steps: [],
  finish: false,
  materials: false,
  size: false,
  price: 'none',
  contact: false,
}

const show = (choice: PieceChoice) =>
  showPiece({ journal, piece: chest, pairs, choice, settings: alderYard })

describe('what is shown of a piece', () => {
  test('is what was chosen of it, and nothing of another piece', () => {
    const { shown } = show(everything)
    expect(shown.title).toBe('Chest in teal')
    expect(shown.kind).toBe('chest of drawers')
    expect(shown.story).toEqual(['Found in a barn.', 'Now it is teal.'])
    expect(shown.pairs.map(({ name, aligned }) => [name, aligned])).toEqual([
      ['Front', true],
    ])
    expect(shown.gallery.map(({ name }) => name)).toEqual([
      'front-after-2',
      'top-after',
    ])
    expect(shown.steps.map(({ words }) => words)).toEqual([
      'Painted, first coat: body',
      'Waxed, first coat: top',
    ])
    expect(shown.materials).toEqual([
      'Waterborne enamel, deep teal (paint): one coat',
      'Paste wax: one coat',
    ])
    expect(shown.finishes).toEqual(['painted', 'waxed'])
    expect(shown.finish).toContain('deep teal')
    expect(shown.size).toContain('90 cm')
    expect(shown.price).toEqual({
      state: 'asking',
      minor: 26_000,
      currency: 'GBP',
    })
  })

  test('holds no word of notes, clients, other pieces, files or links, whatever is chosen', () => {
    for (const choice of [everything, nothing]) {
      expect(JSON.stringify(show(choice).shown)).not.toMatch(
        /SECRET|secret|\.jpg|https?:/,
      )
    }
  })

  test('is next to nothing where next to nothing was chosen', () => {
    expect(show(nothing).shown).toEqual({
      title: 'Chest in teal',
      kind: 'chest of drawers',
      story: [],
      pairs: [],
      gallery: [],
      steps: [],
      finishes: [],
      colours: [],
      materials: [],
      contact: false,
    })
  })

  test('says that it is sold, and no price then', () => {
    expect(show({ ...everything, price: 'sold' }).shown.price).toEqual({
      state: 'sold',
    })
    expect(
      JSON.stringify(show({ ...everything, price: 'sold' }).shown),
    ).not.toContain('26')
  })

  test('offers nothing that is sold, though its price was to be shown', () => {
    const soldAt = local('2026-05-20T12:00')
    const { shown } = showPiece({
      journal: { ...journal, job: { ...journal.job, soldAt } },
      piece: chest,
      pairs,
      choice: everything,
      settings: alderYard,
    })
    expect(shown.price).toEqual({ state: 'sold' })
  })

  test('has a name of its own for every picture, and says what each is made from', () => {
    const { shown, origins } = show(everything)
    expect([...origins.keys()]).toEqual([
      'front-before',
      'front-after',
      'front-after-2',
      'top-after',
      'coat',
    ])
    expect(origins.get('front-before')).toMatchObject({
      of: 'pair',
      side: 'before',
      pair: 'front',
    })
    expect(origins.get('coat')).toEqual({ of: 'photo', photo: 'p' })
    expect(shown.steps[0]?.picture?.name).toBe('coat')
  })
})

test('what is proposed are its pairs and its other photos of after, and no price', () => {
  expect(proposedChoice(journal, chest, pairs)).toMatchObject({
    title: 'Chest',
    pairs: ['front'],
    photos: ['a2'],
    steps: [],
    price: 'none',
    materials: false,
  })
})

test('a pair is of the piece that its after shows, as long as both photos are there', () => {
  expect(pairsOfPiece(journal, stool, pairs).map(({ id }) => id)).toEqual([
    'stool',
  ])
  const without = { ...journal, photos: journal.photos.slice(1) }
  expect(pairsOfPiece(without, chest, pairs)).toEqual([])
})

test('parts that were put back are refitted, a piece is assembled', () => {
  const knobs = { id: 'knobs', name: 'knobs' }
  const whole = { ...chest, surfaces: [body, knobs] }
  const words = (on: string) =>
    stepWords(step('together', 'assemble', on, undefined), whole)
  expect(words('knobs')).toBe('Refitted: knobs')
  expect(words('knobs body')).toBe('Assembled: body and knobs')
})
