import { describe, expect, test } from 'vitest'
import { clockDays } from '#core/timeline/clock-days'
import {
  clockTicks,
  clockTimeAt,
  nightsOf,
  tickWords,
} from '#core/timeline/clock-ticks'
import { foldScale, placeAt } from '#core/timeline/fold-scale'
import { instant } from '#core/units'
import { utc } from './journal-of'

const style = { zone: 'Europe/London', units: 'metric' } as const
const now = utc('2026-11-20T12:00:00Z')

/** London, 2026: summer time ends on 25 October at 02:00 BST and begins on 29 March at 01:00 GMT. Source: tz database. */
const autumn = {
  from: utc('2026-10-24T18:00:00+01:00'),
  to: utc('2026-10-26T12:00:00Z'),
}
const spring = {
  from: utc('2026-03-28T12:00:00Z'),
  to: utc('2026-03-30T12:00:00+01:00'),
}

describe('the days of the clock', () => {
  test('have 25 hours when daylight saving ends, with the hour put back', () => {
    const [, day] = clockDays([autumn], now, style)
    expect(day).toMatchObject({
      from: utc('2026-10-24T23:00:00Z'),
      to: utc('2026-10-26T00:00:00Z'),
      words: 'Sun 25 Oct',
      change: { at: utc('2026-10-25T01:00:00Z'), byMinutes: -60 },
    })
  })

  test('have 23 hours when it begins, with the hour put forward', () => {
    const [, day] = clockDays([spring], now, style)
    expect(day).toMatchObject({
      from: utc('2026-03-29T00:00:00Z'),
      to: utc('2026-03-29T23:00:00Z'),
      change: { at: utc('2026-03-29T01:00:00Z'), byMinutes: 60 },
    })
  })

  test('know a zone whose clock changes by half an hour', () => {
    // Lord Howe Island, 2026: on 5 April at 02:00 back by 30 minutes. Source: tz database.
    const [day] = clockDays(
      [{ from: utc('2026-04-04T14:00:00Z'), to: utc('2026-04-04T15:00:00Z') }],
      now,
      { ...style, zone: 'Australia/Lord_Howe' },
    )
    expect(day?.change).toEqual({
      at: utc('2026-04-04T15:00:00Z'),
      byMinutes: -30,
    })
  })

  test('leave out those that lie in a pause of a century', () => {
    const scale = foldScale([utc('1926-06-01T12:00:00Z'), now])
    const drawn = scale.stretches.filter(({ isFolded }) => !isFolded)
    expect(clockDays(drawn, now, style).length).toBeLessThan(6)
  })
})

describe('ticks', () => {
  const shown = (
    { from, to }: { from: typeof now; to: typeof now },
    least: number,
  ) => {
    const scale = foldScale([from, to])
    return clockTicks(
      scale,
      clockDays([{ from, to }], now, style),
      0,
      scale.length,
      least,
    )
  }

  test('show one o’clock twice where the clock is put back', () => {
    const hours = shown(autumn, 60)
      .filter(({ day }) => day.words === 'Sun 25 Oct')
      .map(({ minuteOfDay }) => minuteOfDay / 60)
    expect(hours.slice(0, 5)).toEqual([0, 1, 1, 2, 3])
    expect(hours).toHaveLength(25)
  })

  test('show no one o’clock where it is put forward', () => {
    const hours = shown(spring, 60)
      .filter(({ day }) => day.words === 'Sun 29 Mar')
      .map(({ minuteOfDay }) => minuteOfDay / 60)
    expect(hours.slice(0, 4)).toEqual([0, 2, 3, 4])
    expect(hours).toHaveLength(23)
  })

  test.each([2, 20, 100, 600, 3000])(
    'stand at least %d drawn minutes apart, in order',
    (least) => {
      const places = shown(autumn, least).map(({ place }) => place)
      places.slice(1).forEach((place, i) => {
        expect(place - (places[i] ?? 0)).toBeGreaterThanOrEqual(least)
      })
    },
  )

  test('are midnights where there is no room for more', () => {
    const ticks = shown(autumn, 1000)
    expect(ticks.map(({ minuteOfDay }) => minuteOfDay)).toEqual([0, 0])
  })

  test('are only those between two places', () => {
    const scale = foldScale([autumn.from, autumn.to])
    const days = clockDays([autumn], now, style)
    const ticks = clockTicks(scale, days, 100, 400, 60)
    expect(ticks.length).toBeGreaterThan(3)
    expect(ticks.every(({ place }) => place >= 100 && place <= 400)).toBe(true)
  })

  test('leave a folded pause empty', () => {
    const scale = foldScale([autumn.from, utc('2026-11-10T12:00:00Z')])
    const fold = scale.stretches.find(({ isFolded }) => isFolded)
    if (fold === undefined) throw new Error('nothing is folded')
    const days = clockDays(scale.stretches, now, style)
    const inside = clockTicks(scale, days, 0, scale.length, 60).filter(
      ({ at }) => at > fold.from && at < fold.to,
    )
    expect(inside).toEqual([])
    expect(placeAt(scale, fold.to)).toBe(fold.place + fold.length)
  })
})

describe('the time at a place that was tapped', () => {
  const days = clockDays([autumn], now, style)
  const scale = foldScale([autumn.from, autumn.to])

  test.each([
    ['2026-10-24T18:02:20+01:00', '2026-10-24T18:00:00+01:00', 18 * 60],
    ['2026-10-24T18:02:40+01:00', '2026-10-24T18:05:00+01:00', 18 * 60 + 5],
    // Half past one came twice that night: half an hour after it did so first, and after the clocks went back.
    ['2026-10-25T01:31:00+01:00', '2026-10-25T01:30:00+01:00', 90],
    ['2026-10-25T01:31:00Z', '2026-10-25T01:30:00Z', 90],
  ])('%s is %s', (tapped, at, minuteOfDay) => {
    const found = clockTimeAt(scale, days, placeAt(scale, utc(tapped)))
    expect(found).toMatchObject({ at: utc(at), minuteOfDay })
    expect(found?.place).toBe(placeAt(scale, utc(at)))
  })

  test('is not told where a finger hits days at once', () => {
    const late = utc('2026-11-14T12:00:00Z')
    const folded = foldScale([autumn.from, late])
    const all = clockDays([{ from: autumn.from, to: late }], now, style)
    const inside = placeAt(folded, utc('2026-11-04T12:00:00Z'))
    expect(clockTimeAt(folded, all, inside)).toBeUndefined()
    expect(
      clockTimeAt(folded, all, folded.length + 60 * 24 * 9),
    ).toBeUndefined()
  })
})

describe('nights', () => {
  test('run from ten to six by the clock: nine hours when it is put back, seven when forward', () => {
    const hoursOf = (stretch: typeof autumn) =>
      nightsOf(clockDays([stretch], now, style)).map(
        ({ from, to }) => (to - from) / 3_600_000,
      )
    expect(hoursOf(autumn)).toEqual([6, 9, 8, 2])
    expect(hoursOf(spring)).toEqual([6, 7, 8, 2])
  })

  test('know what they begin and end with', () => {
    const [, night] = nightsOf(clockDays([autumn], now, style))
    expect(night).toEqual({
      from: instant(Date.parse('2026-10-24T21:00:00Z')),
      to: instant(Date.parse('2026-10-25T06:00:00Z')),
    })
  })
})

test.each([
  [0, '00:00', '12 am'],
  [65, '01:05', '1:05 am'],
  [720, '12:00', '12 pm'],
  [1410, '23:30', '11:30 pm'],
])('minute %d of a day reads %s, or %s', (minute, metric, us) => {
  expect(tickWords(minute, 'metric')).toBe(metric)
  expect(tickWords(minute, 'us')).toBe(us)
})
