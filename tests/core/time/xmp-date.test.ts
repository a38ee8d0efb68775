import { expect, test } from 'vitest'
import { xmpDate } from '#core/time/xmp-date'

// The three forms with a time of day in W3C NOTE-datetime-19980827 (Date and Time Formats), which ISO 16684-1 takes its
// dates from; https://www.w3.org/TR/NOTE-datetime. From memory.
test.each([
  ['1997-07-16T19:20+01:00', '1997-07-16T19:20', '+01:00'],
  ['1997-07-16T19:20:30+01:00', '1997-07-16T19:20:30', '+01:00'],
  ['1997-07-16T19:20:30.45+01:00', '1997-07-16T19:20:30.45', '+01:00'],
])('%s is read with its offset', (text, local, offset) => {
  expect(xmpDate(text)).toEqual({ local, offset })
})

test('an offset that nobody wrote is nobody’s', () => {
  expect(xmpDate('2026-10-24T10:10:44')).toEqual({
    local: '2026-10-24T10:10:44',
  })
})

test.each([
  '1997',
  '1997-07',
  '1997-07-16',
  '2026-13-01T10:00',
  '2026-02-30T10:00:00',
  'yesterday',
  '',
])('“%s” is no time', (text) => {
  expect(xmpDate(text)).toBeUndefined()
})
