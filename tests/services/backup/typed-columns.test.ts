import { readFileSync } from 'node:fs'
import prisma from '@prisma/internals'
import { expect, test } from 'vitest'
import { backedUpTables } from '#core/backup/backed-up-tables'
import { typedColumns, whyNotTyped } from '#services/backup/typed-columns'

/** Texts of the journal that nobody types as they are kept, and why. */
const untyped: Readonly<Record<string, string>> = {
  'Workshop.zone': 'chosen from a list',
  'Workshop.currency': 'chosen from a list',
  'Workshop.units': 'chosen from a list',
  'Piece.liner': 'chosen from a list',
  'Camera.make': 'read from photos',
  'Camera.model': 'read from photos',
  'Camera.serial': 'read from photos',
  'Original.mediaType': 'found by content',
  'Original.likeness': 'worked out',
  'Original.colours': 'worked out',
  'Photo.fileName': 'as its sender called it',
  'Photo.role': 'chosen from a list',
  'Photo.exifLocal': 'read from the photo',
  'Photo.exifOffset': 'read from the photo',
  'Photo.timeSource': 'read from the photo',
  'Photo.takenBasis': 'worked out',
  'Photo.warnings': 'written by the program',
  'Pair.how': 'worked out',
  'Pair.homography': 'worked out',
  'Pair.model': 'worked out',
  'Pair.doubt': 'worked out',
  'Pair.handPoints': 'tapped on pictures',
  'Pair.turns': 'worked out',
  'Product.category': 'chosen from a list',
  'Product.chemistry': 'chosen from a list',
  'Product.label': 'read by its own schema whenever it is used',
  'Product.packUnit': 'chosen from a list',
  'Step.kind': 'chosen from a list',
  'Step.method': 'chosen from a list',
  'Step.amountUnit': 'chosen from a list',
  'RuleAnswer.rule': 'chosen from a list',
  'RuleAnswer.answer': 'chosen from a list',
  'Receipt.key': 'made by the sender',
  'Receipt.fingerprint': 'worked out',
  'Receipt.answer': 'written by the program',
  'Placing.record': 'read by its own schema whenever it is used',
  'Change.kind': 'written by the program',
  'Change.before': 'read by its own schema whenever it is used',
  'Change.after': 'read by its own schema whenever it is used',
  'Captions.text': 'a file',
  'Captions.chapters': 'read by its own schema whenever it is used',
  'Captions.settled': 'read by its own schema whenever it is used',
  'SentenceEdit.writeUp': 'chosen from a list',
  'SentenceEdit.sentence': 'named by the program',
  'SentenceEdit.madeOn': 'read by its own schema whenever it is used',
  'WriteUpSettings.links': 'read by its own schema whenever it is used',
  'WriteUpSettings.tags': 'read by its own schema whenever it is used',
  'SheetSettings.look': 'chosen from lists',
  'CostEntry.kind': 'chosen from a list',
  'PortfolioPage.draft': 'read by its own schema whenever it is used',
  'PortfolioPage.published': 'read by its own schema whenever it is used',
  'PortfolioPage.slug': 'made by the program',
}

async function textColumns() {
  const { datamodel } = await prisma.getDMMF({
    datamodel: readFileSync('prisma/schema.prisma', 'utf8'),
  })
  const tables = new Set(backedUpTables.map(({ name }) => name))
  return datamodel.models
    .filter(({ name }) => tables.has(name))
    .flatMap(({ name, fields }) =>
      fields
        .filter(({ type }) => type === 'String')
        // Keys, and what points at them.
        .filter(({ name: field }) => !/^(?:id|sha256|.+Id)$/.test(field))
        .map((field) => `${name}.${field.name}`),
    )
}

test('every text of a backup is held to what can be typed, or is said not to be typed', async () => {
  const columns = await textColumns()
  expect(columns.length).toBeGreaterThan(60)
  const known = [...Object.keys(typedColumns), ...Object.keys(untyped)]
  expect(columns.toSorted()).toEqual(known.toSorted())
})

test.each(Object.keys(typedColumns))('%s has an end', (name) => {
  const [table = '', column = ''] = name.split('.')
  expect(whyNotTyped(table, column, 'x'.repeat(9000))).toBeDefined()
})

test('what can be typed comes through', () => {
  expect(whyNotTyped('Job', 'title', 'Oak sideboard')).toBeUndefined()
  expect(whyNotTyped('Job', 'client', '')).toBeUndefined()
  expect(
    whyNotTyped('Product', 'link', 'https://shop.example/enamel'),
  ).toBeUndefined()
})
