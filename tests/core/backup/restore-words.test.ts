import { expect, test } from 'vitest'
import { type ToldRestore, restoreWords } from '#core/backup/restore-words'

const table = (
  name: string,
  added: number,
  same: number,
  differing: number,
) => ({
  table: name,
  added,
  same,
  differing,
})
const restore: ToldRestore = {
  outcome: 'asks',
  madeAt: '2026-11-25T02:00:00.000Z',
  merge: {
    tables: [
      table('Job', 1, 2, 1),
      table('Photo', 40, 0, 0),
      table('Change', 3, 0, 0),
    ],
    differing: ['job "Oak sideboard": brief'],
    intoEmpty: false,
  },
  originals: { count: 40, byteLength: 160_000_001 },
  missing: 1,
}

test('who is asked is told what would come, what differs, and how to answer', () => {
  expect(restoreWords(restore, '/home/alder/data')).toEqual([
    'The backup of 2026-11-25T02:00:00.000Z is sound.',
    '/home/alder/data holds a journal, which keeps all that it has.',
    'Would add: 1 job, 40 photos, 3 other records; 40 photo files (161 MB).',
    'There already, and the same: 2 jobs.',
    'There already, and different: 1 job.',
    '  job "Oak sideboard": brief',
    '1 photo file was missing or damaged when the backup was made, and is not in it.',
    'Nothing was changed.',
    'Add --on-conflict keep to leave those as the journal has them, or --on-conflict take to have them as in the backup.',
  ])
})

test('a restore into an empty folder says what it added, and that it is done', () => {
  const words = restoreWords(
    {
      ...restore,
      outcome: 'restored',
      missing: 0,
      merge: {
        tables: [table('Job', 1, 0, 0)],
        differing: [],
        intoEmpty: true,
      },
    },
    '/home/alder/data',
  )
  expect(words).toEqual([
    'The backup of 2026-11-25T02:00:00.000Z is sound.',
    '/home/alder/data holds no journal yet.',
    'Added: 1 job; 40 photo files (161 MB).',
    'Done.',
  ])
})
