import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  backupFileName,
  momentInName,
  surplusBackups,
} from '#core/backup/backup-files'
import { type Instant, instant } from '#core/units'

const at = (text: string) => instant(Date.parse(text))
const zone = 'Europe/London'

describe('the name of a backup', () => {
  test('has its moment in UTC, and gives it back', () => {
    const moment = at('2026-11-05T02:03:04Z')
    expect(backupFileName(moment)).toBe('coatbook-2026-11-05-020304Z.zip')
    expect(momentInName('coatbook-2026-11-05-020304Z.zip')).toBe(moment)
  })
  test.each([
    'coatbook-2026-02-31-020304Z.zip',
    'coatbook-2026-11-05-020304Z.zip.part',
    'my coatbook-2026-11-05-020304Z.zip',
    'holiday.zip',
  ])('%s is somebody else’s file', (name) => {
    expect(momentInName(name)).toBeUndefined()
  })
})

describe('of the backups in a folder', () => {
  const now = at('2026-11-25T12:00:00Z')
  const nights = (count: number) =>
    [...Array(count).keys()].map((number) =>
      instant(at('2026-11-25T02:00:00Z') - number * 86_400_000),
    )
  const kept = (
    backups: readonly Instant[],
    rules: Parameters<typeof surplusBackups>[1],
  ) => {
    const surplus = surplusBackups(backups, rules, zone, now)
    return backups
      .filter((one) => !surplus.includes(one))
      .map((one) => new Date(one).toISOString().slice(0, 10))
  }

  test('the last of each of so many days, weeks from Monday, and months stays', () => {
    // 2026-11-25 is a Wednesday; the Sundays before are the 22nd and the 15th.
    expect(kept(nights(100), { days: 3, weeks: 3, months: 3 })).toEqual([
      '2026-11-25',
      '2026-11-24',
      '2026-11-23',
      '2026-11-22',
      '2026-11-15',
      '2026-10-31',
      '2026-09-30',
    ])
  })

  test('the newest stays whatever the rules', () => {
    expect(kept(nights(5), { days: 0, weeks: 0, months: 0 })).toEqual([
      '2026-11-25',
    ])
  })

  test('one from the future stays, and takes nobody’s place', () => {
    const future = at('2031-01-01T02:00:00Z')
    expect(
      kept([future, ...nights(4)], { days: 2, weeks: 0, months: 0 }),
    ).toEqual(['2031-01-01', '2026-11-25', '2026-11-24'])
  })

  test('a year of standing still takes none away', () => {
    const old = nights(3).map((one) => instant(one - 400 * 86_400_000))
    expect(kept(old, { days: 3, weeks: 0, months: 0 })).toHaveLength(3)
  })

  test('no more stay than the rules say, and removing twice removes no more', () => {
    const moment = fc
      .integer({ min: at('2025-01-01T00:00:00Z'), max: now })
      .map(instant)
    const count = fc.nat(8)
    fc.assert(
      fc.property(
        fc.uniqueArray(moment, { minLength: 1, maxLength: 60 }),
        fc.record({ days: count, weeks: count, months: count }),
        (backups, rules) => {
          const surplus = surplusBackups(backups, rules, zone, now)
          const rest = backups.filter((one) => !surplus.includes(one))
          expect(rest).toContain(instant(Math.max(...backups)))
          expect(rest.length).toBeLessThanOrEqual(
            Math.max(1, rules.days + rules.weeks + rules.months),
          )
          expect(surplusBackups(rest, rules, zone, now)).toEqual([])
        },
      ),
      { numRuns: 40 },
    )
  })
})
