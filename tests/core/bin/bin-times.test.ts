import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  dueUntil,
  goesAt,
  goesWords,
  judgeBinLook,
  usualBinRules,
} from '#core/bin/bin-times'
import { addMinutes, instant, minutesPerDay } from '#core/units'

const at = (text: string) => instant(Date.parse(text))
const now = at('2026-11-25T09:00:00Z')
const days = (count: number) => addMinutes(now, count * minutesPerDay)
const style = { zone: 'Europe/London', units: 'metric' } as const
const everSince = at('2020-01-01T00:00:00Z')

describe('what is in the bin', () => {
  test('goes thirty days after it was removed, unless its owner said otherwise', () => {
    expect(goesAt(now, usualBinRules, everSince)).toBe(days(30))
    expect(goesAt(now, { keepDays: 1 }, everSince)).toBe(days(1))
    expect(goesAt(now, {}, everSince)).toBeUndefined()
  })

  test('is counted from the first look where it went in before', () => {
    expect(goesAt(days(-400), usualBinRules, now)).toBe(days(30))
  })

  test('is due exactly when the moment that was told has come', () => {
    const moment = fc.integer({ min: 0, max: 4e12 }).map(instant)
    fc.assert(
      fc.property(
        moment,
        moment,
        moment,
        fc.option(fc.integer({ min: 1, max: 3650 }), { nil: undefined }),
        (removedAt, countsFrom, present, keepDays) => {
          const rules = keepDays === undefined ? {} : { keepDays }
          const goes = goesAt(removedAt, rules, countsFrom)
          const due = dueUntil(present, rules, countsFrom)
          expect(due !== undefined && removedAt <= due).toBe(
            goes !== undefined && goes <= present,
          )
        },
      ),
    )
  })

  test('is told with the day on which it goes', () => {
    expect(goesWords(days(3), now, style)).toBe('goes for good Sat 28 Nov')
    expect(goesWords(days(1), now, style)).toBe('goes for good tomorrow')
    expect(goesWords(days(-1), now, style)).toBe('goes for good within a day')
    expect(goesWords(undefined, now, style)).toBe(
      'stays until you bring it back',
    )
  })
})

describe('a look into the bin', () => {
  test('removes nothing the first time, once a day from then on, and nothing in between', () => {
    expect(judgeBinLook(now, {})).toEqual({ does: 'begin', countsFrom: now })
    const last = { lookedAt: now, countsFrom: now }
    expect(judgeBinLook(days(0.99), last).does).toBe('wait')
    expect(judgeBinLook(days(1), last)).toEqual({
      does: 'empty',
      countsFrom: now,
    })
    expect(judgeBinLook(days(60), last).does).toBe('empty')
  })

  test('only begins anew where the clock was set back, and counts from no moment that is still to come', () => {
    const last = { lookedAt: days(1000), countsFrom: days(999) }
    expect(judgeBinLook(now, last)).toEqual({ does: 'begin', countsFrom: now })
    expect(
      judgeBinLook(now, { lookedAt: days(1), countsFrom: days(-9) }),
    ).toEqual({ does: 'begin', countsFrom: days(-9) })
  })

  test('removes nothing at once where the clock may have jumped ahead', () => {
    const last = { lookedAt: now, countsFrom: now }
    const jumped = judgeBinLook(days(3000), last)
    expect(jumped.does).toBe('begin')
    expect(
      judgeBinLook(days(3001), { lookedAt: days(3000), countsFrom: now }).does,
    ).toBe('empty')
  })
})
