import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type CaptureEvidence, captureTime } from '#core/time/capture-time'
import { exifLocal } from '#core/time/exif-local'
import { exifOffset } from '#core/time/exif-offset'
import { satelliteTime } from '#core/time/satellite-time'
import { instant } from '#core/units'

const at = (text: string) => instant(Date.parse(text))
const iso = (milliseconds: number) => new Date(milliseconds).toISOString()

function taken(evidence: Partial<CaptureEvidence>) {
  const found = captureTime({
    arrivedAt: at('2026-11-01T12:00:00Z'),
    zone: 'Europe/London',
    ...evidence,
  })
  return {
    earliest: iso(found.taken.earliest),
    at: iso(found.taken.at),
    latest: iso(found.taken.latest),
    basis: found.basis,
    warnings: found.warnings,
  }
}

describe('what a camera wrote', () => {
  // Exif 2.32 (CIPA DC-008-2019) section 4.6.5: a date is "YYYY:MM:DD HH:MM:SS", unknown parts are blank.
  test.each([
    ['2026:10:22 09:02:10', undefined, '2026-10-22T09:02:10'],
    ['2026:10:22 09:02:10\0', '42', '2026-10-22T09:02:10.42'],
    // "05" is five hundredths: the digits stand behind the decimal point.
    ['2026:10:22 09:02:10', '05', '2026-10-22T09:02:10.05'],
    ['2026:10:22 09:02:10', '041178', '2026-10-22T09:02:10.041'],
    ['2026:10:22 09:02:10', '  ', '2026-10-22T09:02:10'],
    ['2024:02:29 00:00:00', undefined, '2024-02-29T00:00:00'],
    ['2026:02:29 00:00:00', undefined, undefined],
    ['    :  :     :  :  ', undefined, undefined],
    ['', undefined, undefined],
    ['0000:00:00 00:00:00', undefined, undefined],
    ['2026:13:01 00:00:00', undefined, undefined],
    ['2026:00:10 00:00:00', undefined, undefined],
    ['2026:10:22 24:00:00', undefined, undefined],
    // A leap second there was (IERS Bulletin C 52), read as Temporal reads it: as the second before (ECMA-262, 12.3.3).
    ['2016:12:31 23:59:60', undefined, '2016-12-31T23:59:59'],
    ['2026:10:22 23:59:61', undefined, undefined],
    ['2026:10:22 23:60:00', undefined, undefined],
    ['1899:11:30 00:00:00', undefined, undefined],
    ['1989:12:31 23:59:59', undefined, undefined],
    ['2026:10:22', undefined, undefined],
  ])('%j with %j is the wall-clock time %s', (text, subSeconds, expected) => {
    expect(exifLocal(text, subSeconds)).toBe(expected)
  })

  test.each([
    ['+01:00', 60],
    ['-03:30', -210],
    ['+12:45', 765],
    ['+14:00', 840],
    ['-00:00', 0],
    ['Z', 0],
    ['   :  ', undefined],
    ['', undefined],
    ['+15:00', undefined],
    ['+01:60', undefined],
    ['01:00', undefined],
  ])('the offset %j is %s minutes', (text, expected) => {
    expect(exifOffset(text)).toBe(expected)
  })

  test.each([
    ['2026:10:22', [8, 2, 9.5], '2026-10-22T08:02:09.500Z'],
    ['2026:10:22\0', [23, 59, 59], '2026-10-22T23:59:59.000Z'],
    // exiftool 13.57 reads these the same: seconds are summed, and a date may have other marks.
    ['2026:10:22', [8, 2, 60], '2026-10-22T08:03:00.000Z'],
    ['2026:12:31', [23, 59, 60], '2027-01-01T00:00:00.000Z'],
    ['2026:10:22', [8, 2.5, 0], '2026-10-22T08:02:30.000Z'],
    ['2026-10-22', [8, 2, 9], '2026-10-22T08:02:09.000Z'],
    ['2026:10:22', [25, 2, 9], undefined],
    ['2026:10:22', [8, 2, 61], undefined],
    ['2026:10:22', [-8, 2, 6], undefined],
    ['1999:99:99', [8, 2, 9], undefined],
    ['1915:08:08', [8, 2, 9], undefined],
    ['0000:00:00', [0, 0, 0], undefined],
    ['2026:10:22', [NaN, NaN, NaN], undefined],
    ['2026:10:22', [], undefined],
    ['', [8, 2, 9], undefined],
  ])('the satellite time %j %j is %s', (date, time, expected) => {
    const found = satelliteTime(date, time)
    expect(found === undefined ? undefined : iso(found)).toBe(expected)
  })
})

describe('the best evidence decides', () => {
  test('a local time with its offset is that instant, known to the second it was written in', () => {
    expect(taken({ local: '2026-10-22T09:02:10', offset: '+01:00' })).toEqual({
      earliest: '2026-10-22T08:02:10.000Z',
      at: '2026-10-22T08:02:10.000Z',
      latest: '2026-10-22T08:02:10.999Z',
      basis: 'offset',
      warnings: [],
    })
  })

  test.each([
    ['.4', '2026-10-22T08:02:10.400Z', '2026-10-22T08:02:10.499Z'],
    ['.04', '2026-10-22T08:02:10.040Z', '2026-10-22T08:02:10.049Z'],
    ['.041', '2026-10-22T08:02:10.041Z', '2026-10-22T08:02:10.041Z'],
  ])('a fraction of %s s orders a burst', (fraction, earliest, latest) => {
    expect(
      taken({ local: `2026-10-22T09:02:10${fraction}`, offset: '+01:00' }),
    ).toMatchObject({ earliest, at: earliest, latest })
  })

  test('satellite time gives the offset that the camera left out', () => {
    expect(
      taken({
        local: '2026-10-22T09:02:10',
        satelliteAt: at('2026-10-22T08:01:40Z'),
        zone: 'America/New_York',
      }),
    ).toMatchObject({ at: '2026-10-22T08:02:10.000Z', basis: 'gps' })
  })

  test('a quarter-hour zone is found from satellite time', () => {
    // Pacific/Chatham is UTC+12:45 in winter, +13:45 in summer (IANA time zone data).
    expect(
      taken({
        local: '2026-06-10T12:00:00',
        satelliteAt: at('2026-06-09T23:14:20Z'),
      }),
    ).toMatchObject({ at: '2026-06-09T23:15:00.000Z', basis: 'gps' })
  })

  test('a satellite date that no zone could explain is not believed', () => {
    const found = taken({
      local: '2026-10-22T09:02:10',
      satelliteAt: at('2026-10-23T07:02:10Z'),
    })
    expect(found).toMatchObject({
      at: '2026-10-22T08:02:10.000Z',
      basis: 'zone',
    })
    expect(found.warnings.join()).toContain('further apart than any time zone')
  })

  test('satellite time alone is a photo taken then or a little later', () => {
    expect(taken({ satelliteAt: at('2026-10-22T08:01:40Z') })).toMatchObject({
      earliest: '2026-10-22T08:01:40.000Z',
      latest: '2026-10-22T08:11:40.000Z',
      basis: 'gps',
    })
  })

  test("a local time alone is read in the workshop's zone", () => {
    expect(taken({ local: '2026-10-24T10:10:44' })).toMatchObject({
      at: '2026-10-24T09:10:44.000Z',
      basis: 'zone',
      warnings: [],
    })
  })

  test('an hour that came twice may be either', () => {
    // Europe/London ends summer time on 2026-10-25 at 02:00 BST (IANA time zone data).
    const found = taken({ local: '2026-10-25T01:30:00' })
    expect(found).toMatchObject({
      earliest: '2026-10-25T00:30:00.000Z',
      latest: '2026-10-25T01:30:00.999Z',
      basis: 'zone',
    })
    expect(found.warnings.join()).toContain('60 minutes later')
  })

  test('an hour that never came is moved and widened', () => {
    // Europe/London begins summer time on 2026-03-29 at 01:00 GMT.
    expect(taken({ local: '2026-03-29T01:30:00' })).toMatchObject({
      earliest: '2026-03-29T00:30:00.000Z',
      latest: '2026-03-29T01:30:00.999Z',
    })
  })

  test("without a camera's word the file's own date is used, and said", () => {
    const found = taken({ fileModifiedAt: at('2026-10-22T08:02:10.041Z') })
    expect(found).toMatchObject({
      at: '2026-10-22T08:02:10.041Z',
      basis: 'file',
    })
    expect(found.warnings).toHaveLength(1)
  })

  test('without any word the photo is dated by its arrival, and said', () => {
    const found = taken({})
    expect(found).toMatchObject({
      at: '2026-11-01T12:00:00.000Z',
      basis: 'arrival',
    })
    expect(found.warnings).toHaveLength(1)
  })

  test('a date that has not come yet is not believed', () => {
    const found = taken({
      local: '2099-10-22T09:02:10',
      offset: '+01:00',
      fileModifiedAt: at('2099-10-22T08:02:10Z'),
    })
    expect(found.basis).toBe('arrival')
    expect(found.warnings.join()).toContain('has not come yet')
  })

  test('a clock that was never set is believed but doubted', () => {
    const found = taken({ local: '1998-01-01T00:00:00' })
    expect(found.basis).toBe('zone')
    expect(found.warnings.join()).toContain('never set')
  })

  test('a blank offset is no offset', () => {
    expect(
      taken({ local: '2026-10-24T10:10:44', offset: '   :  ' }).basis,
    ).toBe('zone')
  })
})

describe("a camera's clock", () => {
  const clock = { correctionSeconds: 67 * 60, uncertaintySeconds: 30 }

  test('is corrected, and what the correction is unsure of widens the span', () => {
    // The demo's camera B is 67 minutes slow: 10:24:40 on its clock was 11:31:40 in London, 10:31:40 UTC.
    expect(taken({ local: '2026-10-22T10:24:40', clock })).toMatchObject({
      earliest: '2026-10-22T10:31:10.000Z',
      at: '2026-10-22T10:31:40.000Z',
      latest: '2026-10-22T10:32:10.999Z',
    })
  })

  test('is corrected before the zone is asked, so that the change of the clocks falls right', () => {
    // 00:30 on a clock 67 minutes slow was 01:37 in London, an hour that came twice that night.
    const found = taken({ local: '2026-10-25T00:30:00', clock })
    expect(found.earliest).toBe('2026-10-25T00:36:30.000Z')
    expect(found.latest).toBe('2026-10-25T01:37:30.999Z')
  })

  test('is corrected before satellite time tells its offset', () => {
    expect(
      taken({
        local: '2026-10-22T10:24:40',
        satelliteAt: at('2026-10-22T10:31:00Z'),
        clock,
      }),
    ).toMatchObject({ at: '2026-10-22T10:31:40.000Z', basis: 'gps' })
  })

  test('does not touch satellite time, the file or the arrival', () => {
    const satelliteAt = at('2026-10-22T08:01:40Z')
    expect(taken({ satelliteAt, clock })).toEqual(taken({ satelliteAt }))
    expect(taken({ clock })).toEqual(taken({}))
  })

  test('that disagrees with satellite time is doubted', () => {
    const found = taken({
      local: '2026-10-22T09:02:10',
      offset: '+01:00',
      satelliteAt: at('2026-10-22T08:42:10Z'),
    })
    expect(found.at).toBe('2026-10-22T08:02:10.000Z')
    expect(found.warnings.join()).toContain('40 minutes apart')
  })
})

const anyMoment = fc
  .integer({
    min: Date.parse('1991-01-01T00:00:00Z'),
    max: Date.parse('2026-10-31T00:00:00Z'),
  })
  .map((milliseconds) => instant(milliseconds))
const anyOffset = fc
  .integer({ min: -48, max: 56 })
  .map((quarters) => quarters * 15)
const anyZone = fc.constantFrom(
  'Europe/London',
  'America/St_Johns',
  'Pacific/Chatham',
  'Asia/Kathmandu',
  'America/New_York',
)

function offsetText(minutes: number): string {
  const size = Math.abs(minutes)
  const two = (value: number) => String(value).padStart(2, '0')
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`
}

describe('laws', () => {
  test('a time with its offset is the same instant whatever the zone of the workshop', () => {
    fc.assert(
      fc.property(anyMoment, anyOffset, anyZone, (moment, offset, zone) => {
        const local = iso(moment + offset * 60_000).slice(0, -1)
        const found = taken({ local, offset: offsetText(offset), zone })
        expect(found).toMatchObject({ at: iso(moment), basis: 'offset' })
      }),
    )
  })

  test('a satellite fix up to seven minutes old gives the same instant as the offset would', () => {
    fc.assert(
      fc.property(
        anyMoment,
        anyOffset,
        fc.integer({ min: 0, max: 7 * 60_000 }),
        (moment, offset, stale) => {
          const local = iso(moment + offset * 60_000).slice(0, -1)
          const satelliteAt = instant(moment - stale)
          expect(taken({ local, satelliteAt })).toMatchObject({
            at: iso(moment),
            basis: 'gps',
          })
        },
      ),
    )
  })

  test('correcting a clock moves the time by just that much, and only ever widens the span', () => {
    fc.assert(
      fc.property(
        anyMoment,
        fc.integer({ min: -90_000, max: 90_000 }),
        fc.integer({ min: 0, max: 600 }),
        (moment, correctionSeconds, uncertaintySeconds) => {
          const evidence = {
            local: iso(moment).slice(0, 19),
            offset: '+00:00',
            arrivedAt: instant(moment + 10 * 86_400_000),
            zone: 'Europe/London',
          }
          const plain = captureTime(evidence).taken
          const corrected = captureTime({
            ...evidence,
            clock: { correctionSeconds, uncertaintySeconds },
          }).taken
          const moved = correctionSeconds * 1000
          expect(corrected.at - plain.at).toBe(moved)
          expect(corrected.earliest).toBe(
            plain.earliest + moved - uncertaintySeconds * 1000,
          )
          expect(corrected.latest).toBe(
            plain.latest + moved + uncertaintySeconds * 1000,
          )
        },
      ),
    )
  })
})
