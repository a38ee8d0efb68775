import { expect, test } from 'vitest'
import { iptcDate } from '#core/time/iptc-date'

test('the standard’s own time is read with its offset', () => {
  // IPTC-NAA Information Interchange Model 4.2, data set 2:60: "133015+0100" is 13:30:15, an hour ahead of UTC. From memory.
  expect(iptcDate('20261024', '133015+0100')).toEqual({
    local: '2026-10-24T13:30:15',
    offset: '+01:00',
  })
})

test('is read with separators too', () => {
  expect(iptcDate('2017-05-29', '17:19:21-04:00')).toEqual({
    local: '2017-05-29T17:19:21',
    offset: '-04:00',
  })
})

test('an offset that no zone has was made up, and is left out', () => {
  expect(iptcDate('20170529', '171921-0407')).toEqual({
    local: '2017-05-29T17:19:21',
  })
})

test.each([
  ['20170529', ''],
  ['', '171921-0400'],
  ['20171329', '171921'],
  ['00000000', '000000'],
])('“%s” and “%s” are no time', (date, time) => {
  expect(iptcDate(date, time)).toBeUndefined()
})
