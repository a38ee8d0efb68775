import { readFileSync } from 'node:fs'
import prisma from '@prisma/internals'
import { expect, test } from 'vitest'
import { backedUpTables } from '#core/backup/backed-up-tables'
import {
  columnBounds,
  recordFlaw,
  whyNotKept,
} from '#services/backup/record-bounds'

/** Columns of the journal that are not held to a bound of their own, and why. */
const unbounded: Readonly<Record<string, string>> = {
  'Workshop.units': 'chosen from a list',
  'Piece.liner': 'chosen from a list',
  'Camera.make': 'read from photos',
  'Camera.model': 'read from photos',
  'Camera.serial': 'read from photos',
  'Original.mediaType': 'found by content',
  'Original.colours': 'worked out',
  'Photo.fileName': 'as its sender called it',
  'Photo.role': 'chosen from a list',
  'Photo.exifOffset': 'read from the photo',
  'Photo.timeSource': 'read from the photo',
  'Photo.takenBasis': 'worked out',
  'Pair.how': 'worked out',
  'Pair.model': 'worked out',
  'Pair.doubt': 'worked out',
  'Product.category': 'chosen from a list',
  'Product.chemistry': 'chosen from a list',
  'Product.packUnit': 'chosen from a list',
  'Step.method': 'chosen from a list',
  'Step.amountUnit': 'chosen from a list',
  'RuleAnswer.rule': 'chosen from a list',
  'RuleAnswer.answer': 'chosen from a list',
  'Receipt.key': 'made by the sender',
  'Receipt.fingerprint': 'worked out',
  'Change.kind': 'written by the program',
  'Change.before': 'held to its own form, with all that stands in it',
  'Change.after': 'held to its own form, with all that stands in it',
  'Captions.text': 'a file',
  'SentenceEdit.writeUp': 'chosen from a list',
  'SentenceEdit.sentence': 'named by the program',
  'CostEntry.kind': 'chosen from a list',
  'PortfolioPage.slug': 'made by the program',
}

async function columnsOfBackups() {
  const { datamodel } = await prisma.getDMMF({
    datamodel: readFileSync('prisma/schema.prisma', 'utf8'),
  })
  const tables = new Set(backedUpTables.map(({ name }) => name))
  return datamodel.models
    .filter(({ name }) => tables.has(name))
    .flatMap(({ name, fields }) =>
      fields
        // What is yes or no, or bytes, cannot be out of bounds; keys, and what points at them, are looked up.
        .filter(({ type }) =>
          ['String', 'Int', 'BigInt', 'Float', 'DateTime'].includes(type),
        )
        .filter(({ name: field }) => !/^(?:id|sha256|.+Id)$/.test(field))
        .map((field) => ({
          name: `${name}.${field.name}`,
          table: name,
          column: field.name,
          type: field.type,
        })),
    )
}

const columns = await columnsOfBackups()

test('every text, number and moment of a backup has its bounds, or is said to have none', () => {
  expect(columns.length).toBeGreaterThan(130)
  const known = [...Object.keys(columnBounds), ...Object.keys(unbounded)]
  expect(columns.map(({ name }) => name).toSorted()).toEqual(known.toSorted())
})

const ofType = (...types: readonly string[]) =>
  columns.filter(
    ({ name, type }) => types.includes(type) && name in columnBounds,
  )

test.each(ofType('String'))('$name has an end', ({ table, column }) => {
  // What takes any JSON takes a long one.
  if (['Receipt.answer', 'SheetSettings.look'].includes(`${table}.${column}`)) {
    expect(whyNotKept(table, column, '{')).toBeDefined()
  } else {
    expect(whyNotKept(table, column, 'x'.repeat(9000))).toBeDefined()
  }
})

test.each(ofType('Int', 'BigInt', 'Float'))(
  '$name is neither far below nothing nor without end',
  ({ table, column, type }) => {
    expect(whyNotKept(table, column, -1e12)).toBeDefined()
    // How sharp a picture is has no unit.
    if (column !== 'sharpness') {
      expect(whyNotKept(table, column, 1e12)).toBeDefined()
    }
    if (type !== 'Float') expect(whyNotKept(table, column, 2.5)).toBeDefined()
    expect(whyNotKept(table, column, NaN)).toBeDefined()
    expect(whyNotKept(table, column, Infinity)).toBeDefined()
  },
)

test.each(ofType('DateTime'))('$name takes a moment of today', (one) => {
  expect(whyNotKept(one.table, one.column, 1_764_000_000_000)).toBeUndefined()
})

test('what can be typed comes through', () => {
  expect(whyNotKept('Job', 'title', 'Oak sideboard')).toBeUndefined()
  expect(whyNotKept('Job', 'client', '')).toBeUndefined()
  expect(whyNotKept('Product', 'link', 'https://a.example/x')).toBeUndefined()
  expect(whyNotKept('CostEntry', 'eachMinor', 72.5)).toBeUndefined()
  expect(whyNotKept('AirReading', 'celsius', -40)).toBeUndefined()
  // Half a millimetre, rounded as it was kept.
  expect(whyNotKept('Piece', 'widthMillimetres', 0)).toBeUndefined()
})

const work = { startedAt: null, finishedAt: null, weighedAfterGrams: null }

test.each([
  [
    'Photo',
    { takenEarliest: 3, takenAt: 2, takenLatest: 4 },
    /outside its own/,
  ],
  ['Step', { ...work, startedAt: 2, finishedAt: 1 }, /ends before it starts/],
  [
    'Step',
    { ...work, weighedBeforeGrams: 900, weighedAfterGrams: 901 },
    /weighs no more after than before/,
  ],
  ['Step', { ...work, weighedAfterGrams: 901 }, /Give both weights/],
  ['Rates', { yearlyOverheadMinor: 5, hourlyMinor: null }, /spread over/],
  [
    'Change',
    { jobId: null, before: '{"products":[],"clocks":[]}', after: '{' },
    /has a "after" that cannot be: It is no JSON/,
  ],
  [
    'Change',
    {
      jobId: null,
      before:
        '{"products":[],"clocks":[{"id":"c","clockCorrectionSeconds":1e9,"clockUncertaintySeconds":0}]}',
      after: '{"products":[],"clocks":[]}',
    },
    /in its "before" a Camera that has a "clockCorrectionSeconds" of 1000000000/,
  ],
  [
    'Change',
    {
      jobId: 'j',
      before:
        '{"steps":[],"photos":[],"handOver":{"finishedAt":"1066-10-14T09:00:00Z","soldAt":null,"deliveredAt":null}}',
      after: '{"steps":[],"photos":[]}',
    },
    /in its "before" a Job that has a "finishedAt" of .*before 1900/,
  ],
])('a record of %s that %j is refused', (table, row, why) => {
  expect(recordFlaw(table, row)).toMatch(why)
})
