import { describe, expect, test } from 'vitest'
import { captureTime } from '#core/time/capture-time'
import { iptcDate } from '#core/time/iptc-date'
import { xmpDate } from '#core/time/xmp-date'
import { instant } from '#core/units'

describe('a date in XMP', () => {
  // ISO 16684-1:2019 section 8.2.1.2: YYYY, YYYY-MM, YYYY-MM-DD, then Thh:mmTZD, Thh:mm:ssTZD, Thh:mm:ss.sTZD, where
  // the zone designator may be missing.
  test.each([
    ['2017-05-29T17:19:21-04:00', '2017-05-29T17:19:21', '-04:00'],
    ['2017-05-29T17:19:21Z', '2017-05-29T17:19:21', 'Z'],
    ['2018-07-25T16:34:22.173129472', '2018-07-25T16:34:22.173', undefined],
    ['2017-05-29T17:19+01:00', '2017-05-29T17:19', '+01:00'],
    ['2017-05-29T17:19:21-0400', '2017-05-29T17:19:21', '-04:00'],
    ['2017-05-29T17:19:21-15:28', '2017-05-29T17:19:21', undefined],
  ])('%s is %s %s', (text, local, offset) => {
    expect(xmpDate(text)).toEqual(
      offset === undefined ? { local } : { local, offset },
    )
  })

  test.each(['2017', '2017-05', '2017-05-29', '', '1970-01-01T00:00:00Z'])(
    '%j says no time',
    (text) => {
      expect(xmpDate(text)).toBeUndefined()
    },
  )

  test('to the minute is a span of that minute', () => {
    const { taken } = captureTime({
      ...xmpDate('2017-05-29T17:19Z'),
      arrivedAt: instant(Date.parse('2026-11-01T12:00:00Z')),
      zone: 'Europe/London',
    })
    expect(taken.latest - taken.earliest).toBe(59_999)
  })
})

describe('a date in IPTC data sets', () => {
  // IPTC-NAA IIM 4.2: Date Created CCYYMMDD, Time Created HHMMSS±HHMM.
  test.each([
    ['20170529', '171921-0400', '2017-05-29T17:19:21', '-04:00'],
    ['2017-05-29', '17:19:21+00:00', '2017-05-29T17:19:21', '+00:00'],
    // Programs that know no offset write the time once more.
    ['20230712', '152858-1528', '2023-07-12T15:28:58', undefined],
    ['20240414', '004031-0040', '2024-04-14T00:40:31', undefined],
  ])('%s %s is %s %s', (date, time, local, offset) => {
    expect(iptcDate(date, time)).toEqual(
      offset === undefined ? { local } : { local, offset },
    )
  })

  test.each([
    ['20170529', ''],
    ['', '171921-0400'],
    ['00000000', '000000+0000'],
    ['20170532', '171921-0400'],
  ])('%j %j says no time', (date, time) => {
    expect(iptcDate(date, time)).toBeUndefined()
  })
})
