import { expect, test } from 'vitest'
import { elapsedBetween, exactly, firstOf, lastOf, span } from '#core/time/span'
import { instant } from '#core/units'

const minute = 60_000

test('a span out of order is refused', () => {
  expect(() => span(instant(2), instant(1), instant(3))).toThrow(RangeError)
})

test('the wait between two uncertain moments is as uncertain as both together', () => {
  const end = span(instant(0), instant(0), instant(60 * minute))
  const start = span(
    instant(90 * minute),
    instant(95 * minute),
    instant(100 * minute),
  )
  expect(elapsedBetween(end, start)).toEqual({ low: 30, high: 100 })
})

test('the first and the last of several moments are taken end by end', () => {
  const wide = span(instant(0), instant(5), instant(20))
  const narrow = exactly(instant(10))
  expect(firstOf([wide, narrow])).toEqual({ earliest: 0, at: 5, latest: 10 })
  expect(lastOf([wide, narrow])).toEqual({ earliest: 10, at: 10, latest: 20 })
  expect(() => firstOf([])).toThrow(RangeError)
  expect(() => lastOf([])).toThrow(RangeError)
})
