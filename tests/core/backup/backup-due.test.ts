import { expect, test } from 'vitest'
import { isBackupDue } from '#core/backup/backup-due'
import { instant } from '#core/units'

const at = (text: string) => instant(Date.parse(text))
const due = (now: string, doneAt?: string, triedAt?: string) =>
  isBackupDue(at(now), 'Europe/London', {
    ...(doneAt === undefined ? {} : { doneAt: at(doneAt) }),
    ...(triedAt === undefined ? {} : { triedAt: at(triedAt) }),
  })

test.each([
  ['there was none yet', '2026-11-25T12:00:00Z', undefined, true],
  [
    'it was made last night',
    '2026-11-25T12:00:00Z',
    '2026-11-25T02:00:04Z',
    false,
  ],
  ['it is not yet two', '2026-11-25T01:59:59Z', '2026-11-24T02:00:00Z', false],
  ['it is two', '2026-11-25T02:00:00Z', '2026-11-24T02:00:00Z', true],
  [
    'the machine was off at two',
    '2026-11-25T09:00:00Z',
    '2026-11-24T02:00:00Z',
    true,
  ],
  // British Summer Time: two in the morning is one o'clock UTC.
  ['it is two in summer', '2026-07-25T01:00:00Z', '2026-07-24T01:00:00Z', true],
  [
    'it is one in summer',
    '2026-07-25T00:00:00Z',
    '2026-07-24T01:00:00Z',
    false,
  ],
  [
    'the clock was set back since',
    '2026-11-25T12:00:00Z',
    '2027-01-01T02:00:00Z',
    true,
  ],
])('when %s', (_when, now, doneAt, expected) => {
  expect(due(now, doneAt)).toBe(expected)
})

test('one that failed rests for an hour, by a clock that runs forward', () => {
  const failed = (now: string) =>
    due(now, '2026-11-23T02:00:00Z', '2026-11-25T02:00:00Z')
  expect(failed('2026-11-25T02:59:00Z')).toBe(false)
  expect(failed('2026-11-25T03:00:00Z')).toBe(true)
  expect(failed('2026-11-25T01:00:00Z')).toBe(true)
})
