import { describe, expect, test } from 'vitest'
import {
  dayInFull,
  dayWords,
  momentWords,
  spanWords,
  timeOfDay,
} from '#core/time/moments'
import { instant } from '#core/units'

const london = { zone: 'Europe/London', units: 'metric' } as const
const chicago = { zone: 'America/Chicago', units: 'us' } as const
const at = (text: string) => instant(Date.parse(text))

describe('a moment is said as the workshop’s clock has it', () => {
  // 24 October 2026 is a Saturday; summer time in London is UTC+1 and in Chicago UTC-5 until the week after (IANA time
  // zone database).
  const moment = at('2026-10-24T15:05:00Z')

  test.each([
    [london, '16:05', '24 October 2026', 'Sat 24 Oct'],
    [chicago, '10:05 am', 'October 24, 2026', 'Sat Oct 24'],
  ])('%o', (style, time, full, day) => {
    expect(timeOfDay(moment, style)).toBe(time)
    expect(dayInFull(moment, style)).toBe(full)
    expect(dayWords(moment, at('2026-11-03T12:00:00Z'), style)).toBe(day)
  })

  test.each([
    ['2026-10-24T05:00:00Z', '12:00 am'],
    ['2026-10-24T17:30:00Z', '12:30 pm'],
  ])('midnight and noon are twelve: %s', (text, time) => {
    expect(timeOfDay(at(text), chicago)).toBe(time)
  })

  test('with the year where it is another', () => {
    expect(dayWords(moment, at('2027-01-05T12:00:00Z'), london)).toBe(
      'Sat 24 Oct 2026',
    )
  })
})

describe('days are counted by the wall clock', () => {
  // The day on which the clocks go back has 25 hours.
  const now = at('2026-10-25T00:30:00+01:00')

  test.each([
    ['2026-10-25T23:30:00Z', 'today'],
    ['2026-10-26T00:30:00Z', 'tomorrow'],
    ['2026-10-24T22:30:00Z', 'yesterday'],
    ['2026-10-27T00:30:00Z', 'Tue 27 Oct'],
  ])('%s is %s', (text, said) => {
    expect(dayWords(at(text), now, london)).toBe(said)
  })
})

test('a span is one moment when its ends read the same, and says a shared day once', () => {
  const now = at('2026-10-24T08:00:00Z')
  const first = at('2026-10-24T09:00:10Z')
  expect(spanWords(first, at('2026-10-24T09:00:50Z'), now, london)).toBe(
    momentWords(first, now, london),
  )
  expect(spanWords(first, at('2026-10-24T10:30:00Z'), now, london)).toBe(
    'today 10:00 to 11:30',
  )
  expect(spanWords(first, at('2026-10-25T10:30:00Z'), now, london)).toBe(
    'today 10:00 to tomorrow 10:30',
  )
})
