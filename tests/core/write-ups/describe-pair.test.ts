import fc from 'fast-check'
import { expect, test } from 'vitest'
import { describePair } from '#core/write-ups/describe-pair'
import { anyJournal } from './any-journal.ts'
import { bareFacts, paintedBookcase, photo, sideboardAndBench } from './jobs.ts'

function pair(
  journal: Parameters<typeof describePair>[0]['journal'],
  surfaceIds: readonly string[],
  view?: string,
) {
  return describePair({
    journal,
    before: photo('b', 'before', surfaceIds),
    after: photo('a', 'after', surfaceIds, view === undefined ? {} : { view }),
  })
}

// WCAG 2.2, success criterion 1.1.1: the text serves the purpose of the picture, which is the change.
test.each([
  [
    ['sideboard-body', 'sideboard-top'],
    'front',
    'Sideboard, front view, before and after: as found, then painted deep teal, with the top stained dark walnut and clear-coated.',
  ],
  [
    ['sideboard-body', 'sideboard-top', 'bench-body'],
    'right three-quarter',
    'Sideboard and bench, right three-quarter view, before and after: as found, then mostly painted deep teal.',
  ],
  [
    ['sideboard-top'],
    'top',
    'Sideboard, from above, before and after: as found, then stained dark walnut and clear-coated.',
  ],
  [
    ['sideboard-hardware'],
    'hardware',
    'Sideboard, hardware, before and after: as found, then finished in brass.',
  ],
  [
    ['sideboard-body', 'bench-body'],
    'right-three-quarter',
    'Sideboard and bench, right three-quarter view, before and after: as found, then painted deep teal.',
  ],
  [
    [],
    'top',
    'Sideboard, from above, before and after: as found, then stained dark walnut and clear-coated.',
  ],
  [
    [],
    'inside',
    'Sideboard, inside, before and after: as found, then lined with drawer paper (leaf pattern).',
  ],
  [
    ['bench-body'],
    undefined,
    'Bench, before and after: as found, then painted deep teal.',
  ],
])(
  'a pair of %j says the piece, the view and the change',
  (ids, view, text) => {
    expect(pair(sideboardAndBench, ids, view)).toBe(text)
  },
)

test('a photo that names no surface is taken to show the piece', () => {
  expect(pair(paintedBookcase, [], 'front')).toBe(
    'Bookcase, front view, before and after: as found, then painted soft white.',
  )
})

test('a piece that is only partly painted is not called painted', () => {
  expect(pair(bareFacts, [], 'front')).toBe(
    'Chest of drawers, front view, before and after: as found, then with the body painted.',
  )
})

test('a screen reader gets it in one breath, in one line', () => {
  fc.assert(
    fc.property(anyJournal, fc.string({ maxLength: 200 }), (journal, view) => {
      const text = pair(journal, [], view)
      expect(text.length).toBeLessThanOrEqual(125)
      expect(text).not.toMatch(/ {2}|\n|undefined|^ | $/)
    }),
  )
})
