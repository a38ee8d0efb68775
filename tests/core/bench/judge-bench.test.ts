import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Bench, BenchEntry } from '#core/bench/bench'
import { benchEntries } from '#core/bench/bench-entries'
import { judgeBench } from '#core/bench/judge-bench'
import { nextChange } from '#core/bench/next-change'
import type { Label } from '#core/shelf/product'
import { exactly } from '#core/time/span'
import { readTimeline } from '#core/timeline/read-timeline'
import { at } from '../air/any-air'
import { blanketBoxJob, sideboardJob } from '../timeline/demo-journal'
import { journalOf, product, utc } from '../timeline/journal-of'

const entriesOf = (journal: Parameters<typeof readTimeline>[0]) =>
  benchEntries(journal, readTimeline(journal))

/** One surface, coated at the start of all times. */
const coated = (label: Label, finished = false) =>
  entriesOf(
    journalOf({
      products: [product('enamel', 'other', label)],
      steps: [
        {
          id: 'coat',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 1 },
          startedAt: at(0),
          finishedAt: at(0),
        },
      ],
      ...(finished && { finishedAt: '2026-10-24T09:00:00Z' }),
    }),
  )

const places = ['wet', 'ready', 'closing', 'past', 'curing', 'unknown'] as const
const placeOf = (bench: Bench) =>
  places.filter((place) => bench[place].length > 0)

const enamel = { recoatMinutes: 60, recoatByMinutes: 4320, cureDays: 21 }

test.each([
  [0, 'wet'],
  [59, 'wet'],
  [60, 'ready'],
  [4320 - 1441, 'ready'],
  [4320 - 1440, 'closing'],
  [4320, 'closing'],
  [4321, 'past'],
])(
  '%d minutes after a coat that is ready in an hour and closes in three days it is %s',
  (minutes, place) => {
    expect(placeOf(judgeBench(coated(enamel), at(minutes)))).toEqual([place])
  },
)

test('a surface that may be ready is wet until it must be', () => {
  const entries = coated({ recoatMinutes: 60 }).map((entry) => ({
    ...entry,
    readyAt: { earliest: at(60), latest: at(90) },
    windows: [],
  }))
  expect(placeOf(judgeBench(entries, at(75)))).toEqual(['wet'])
  expect(placeOf(judgeBench(entries, at(90)))).toEqual(['ready'])
})

test('what is missing before a time can be told is said', () => {
  const silent = coated({})
  expect(placeOf(judgeBench(silent, at(0)))).toEqual(['unknown'])
  expect(silent[0]?.waitsFor).toBe('label')
  expect(coated(enamel)[0]).not.toHaveProperty('waitsFor')
  const unnamed = entriesOf(
    journalOf({
      steps: [{ id: 'coat', kind: 'coat', on: { body: 1 }, startedAt: at(0) }],
    }),
  )
  expect(unnamed[0]?.waitsFor).toBe('product')
})

test('without a latest time a coat stays ready', () => {
  expect(placeOf(judgeBench(coated({ recoatMinutes: 60 }), at(1e6)))).toEqual([
    'ready',
  ])
})

test('without a label nothing is known', () => {
  expect(placeOf(judgeBench(coated({ cureDays: 7 }), at(60)))).toEqual([
    'unknown',
  ])
})

test('a finished job is on the bench only while it cures', () => {
  expect(placeOf(judgeBench(coated(enamel, true), at(60)))).toEqual(['curing'])
  expect(placeOf(judgeBench(coated(enamel, true), at(21 * 1440)))).toEqual([])
  expect(placeOf(judgeBench(coated({}, true), at(60)))).toEqual([])
})

test('between the windows of an aerosol a surface is wet again, with the time of the next', () => {
  const entries = coated({
    recoatWindows: [{ fromMinutes: 0, toMinutes: 60 }, { fromMinutes: 2880 }],
  })
  expect(judgeBench(entries, at(30)).closing[0]?.recoatBy).toBe(at(60))
  const [between] = judgeBench(entries, at(90)).wet
  expect(between?.readyAt?.latest).toBe(at(2880))
  expect(between).not.toHaveProperty('recoatBy')
  expect(placeOf(judgeBench(entries, at(2880)))).toEqual(['ready'])
})

test('a window that opens only to a sand is past for a surface as it is', () => {
  const entries = coated({
    recoatWindows: [
      { fromMinutes: 240, toMinutes: 360 },
      { fromMinutes: 1440, needs: 'sand' },
    ],
  })
  const placeAt = (minutes: number) => placeOf(judgeBench(entries, at(minutes)))
  expect(placeAt(100)).toEqual(['wet'])
  expect(placeAt(300)).toEqual(['closing'])
  expect(placeAt(400)).toEqual(['wet'])
  expect(placeAt(1440)).toEqual(['past'])
})

test('a window that closes before the coat is dry is never open', () => {
  const [entry] = coated(enamel)
  if (entry === undefined) throw new RangeError('one entry')
  const slow: BenchEntry = {
    ...entry,
    readyAt: { earliest: at(200), latest: at(300) },
    recoatBy: at(120),
    windows: [],
  }
  expect(placeOf(judgeBench([slow], at(100)))).toEqual(['wet'])
  expect(placeOf(judgeBench([slow], at(250)))).toEqual(['wet'])
  expect(placeOf(judgeBench([slow], at(300)))).toEqual(['past'])
})

test('a coat whose window has passed is ready again once it has been scuffed', () => {
  const coat = {
    id: 'coat',
    kind: 'coat',
    productId: 'enamel',
    on: { body: 1 },
    startedAt: at(0),
  } as const
  const scuff = { id: 'scuff', kind: 'scuff', startedAt: at(6000) } as const
  const products = [product('enamel', 'other', enamel)]
  const passed = journalOf({ products, steps: [coat] })
  const scuffed = journalOf({ products, steps: [coat, scuff] })
  const later = at(6010)
  expect(judgeBench(entriesOf(passed), later).past).toHaveLength(1)
  const bench = judgeBench(entriesOf(scuffed), later)
  expect(bench.past).toEqual([])
  expect(bench.ready).toMatchObject([{ step: { id: 'coat' } }])
})

test('a coat with after photos since leaves what is ready once it has cured, and no sooner', () => {
  const journal = journalOf({
    products: [product('enamel', 'other', { recoatMinutes: 60, cureDays: 21 })],
    steps: [
      {
        id: 'coat',
        kind: 'coat',
        productId: 'enamel',
        on: { body: 1 },
        startedAt: at(0),
        finishedAt: at(0),
      },
    ],
  })
  const photographed = (minutes: number) =>
    entriesOf({
      ...journal,
      photos: [
        {
          id: 'after',
          sha256: 'after',
          fileName: 'after.jpg',
          width: 4000,
          height: 3000,
          role: 'after',
          surfaceIds: [],
          taken: exactly(at(minutes)),
          basis: 'offset',
          warnings: [],
        },
      ],
    })
  const days = (count: number) => at(count * 1440)
  const late = photographed(2000)
  expect(placeOf(judgeBench(late, days(20)))).toEqual(['ready'])
  expect(placeOf(judgeBench(late, days(21)))).toEqual([])
  expect(judgeBench(late, days(21)).done).toHaveLength(1)
  expect(nextChange(late, days(20))).toBe(days(21))
  // It was worked on after that photo.
  const early = photographed(-2000)
  expect(placeOf(judgeBench(early, days(40)))).toEqual(['ready'])
  expect(judgeBench(early, days(40)).done).toEqual([])
})

test('a stripped surface is on the bench until it is worked on', () => {
  const strip = {
    id: 'strip',
    kind: 'strip',
    productId: 'enamel',
    startedAt: at(0),
  } as const
  const sand = { id: 'sand', kind: 'sand', startedAt: at(600) } as const
  const products = [product('enamel', 'other', enamel)]
  expect(entriesOf(journalOf({ products, steps: [strip] }))).toHaveLength(1)
  expect(entriesOf(journalOf({ products, steps: [strip, sand] }))).toEqual([])
})

test('the demo: the blanket box is on the bench, the sideboard only cures', () => {
  const entries = [...entriesOf(sideboardJob), ...entriesOf(blanketBoxJob)]
  const bench = judgeBench(entries, utc('2026-11-15T12:30:00Z'))
  expect(bench.wet).toMatchObject([
    {
      piece: { name: 'blanket box' },
      step: { id: 'paint 1', coat: 1 },
      product: { name: 'enamel' },
      coatedAt: utc('2026-11-15T12:04:35.932Z'),
    },
  ])
  // Three weeks from 24 and 25 October are over on the 14th and 15th of November; the top had its last coat at 22:12.
  expect(bench.curing.map((entry) => entry.surface.name)).toEqual(['top'])
  expect(bench.past).toEqual([])
})

test('the most pressing comes first', () => {
  const one = (minutes: number): BenchEntry[] =>
    coated({ recoatMinutes: minutes, recoatByMinutes: minutes + 100 }).map(
      (entry) => ({ ...entry, surface: { id: `${minutes}`, name: '' } }),
    )
  const entries = [...one(300), ...one(100), ...one(200)]
  const order = (list: readonly BenchEntry[]) =>
    list.map((entry) => entry.surface.id)
  expect(order(judgeBench(entries, at(0)).wet)).toEqual(['100', '200', '300'])
  expect(order(judgeBench(entries, at(1000)).past)).toEqual([
    '100',
    '200',
    '300',
  ])
})

test('every surface of an open job is in exactly one list, at every moment', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 5000 }),
      fc.option(fc.integer({ min: 0, max: 5000 }), { nil: undefined }),
      fc.integer({ min: -100, max: 20_000 }),
      (recoatMinutes, open, minutes) => {
        const entries = coated({
          recoatMinutes,
          ...(open !== undefined && { recoatByMinutes: recoatMinutes + open }),
        })
        expect(placeOf(judgeBench(entries, at(minutes)))).toHaveLength(1)
      },
    ),
  )
})

test('wet paint is wet, also on a job that is called finished', () => {
  const entries = coated({ recoatMinutes: 60, cureDays: 21 }, true)
  expect(placeOf(judgeBench(entries, at(4)))).toEqual(['wet'])
  expect(placeOf(judgeBench(entries, at(60)))).toEqual(['curing'])
})
