import { expect, test } from 'vitest'
import { elapsedBetween } from '#core/time/span'
import { isTimeZone, readLocal, startOfDay, wallClock } from '#core/time/zone'
import { instant } from '#core/units'

const utc = (text: string) => instant(Date.parse(text))

// Daylight saving in the United Kingdom, 2026: from 29 March to 25 October, 01:00 UTC (Summer Time Act 1972; IANA time
// zone database, Europe).
test('an hour that comes twice gives both of its instants', () => {
  expect(readLocal('2026-10-25T01:30:00', 'Europe/London')).toEqual({
    earliest: utc('2026-10-25T00:30:00Z'),
    at: utc('2026-10-25T00:30:00Z'),
    latest: utc('2026-10-25T01:30:00Z'),
  })
})

test('an hour that never was is read with the offset before and after', () => {
  expect(readLocal('2026-03-29T01:30:00', 'Europe/London')).toMatchObject({
    earliest: utc('2026-03-29T00:30:00Z'),
    latest: utc('2026-03-29T01:30:00Z'),
  })
})

test('a night across the end of daylight saving is an hour longer than the clock on the wall says', () => {
  const evening = readLocal('2026-10-24T23:10:00', 'Europe/London')
  const morning = readLocal('2026-10-25T08:40:00', 'Europe/London')
  expect(elapsedBetween(evening, morning)).toEqual({ low: 630, high: 630 })
})

test('a day with daylight saving begins where its zone says', () => {
  expect(startOfDay(utc('2026-10-25T12:00:00Z'), 'Europe/London')).toBe(
    utc('2026-10-24T23:00:00Z'),
  )
  expect(wallClock(utc('2026-10-24T22:10:00Z'), 'Europe/London')).toMatchObject(
    { hour: 23, minute: 10, weekday: 6, offset: '+01:00' },
  )
})

test('a zone nobody knows is told apart', () => {
  expect(isTimeZone('Europe/London')).toBe(true)
  expect(isTimeZone('Alder/Yard')).toBe(false)
})
