import fc from 'fast-check'
import { expect, test } from 'vitest'
import { forecastNext } from '#core/drying/forecast-next'
import { judgeGap } from '#core/drying/judge-gap'
import { exactly } from '#core/time/span'
import { anyReadings, at, reading, steadyAir } from '../air/any-air'
import {
  anyChemistry,
  anyLabel,
  clocksIn,
  lasting,
  moment,
  sometime,
} from './any-coat'

const enamel = {
  chemistry: 'waterborne-acrylic' as const,
  label: {
    recoatMinutes: 60,
    recoatByMinutes: 1440,
    cureDays: 21,
    reference: { celsius: 25, humidity: 50 },
  },
}

test('in the label’s air a coat is ready, closing and cured when the label says', () => {
  const outlook = forecastNext(
    [lasting(0, 30)],
    enamel,
    undefined,
    clocksIn([]),
  )
  expect(outlook).toMatchObject({
    readyAt: { earliest: at(90), latest: at(90) },
    recoatBy: at(1440),
    curedBy: at(30 + 21 * 1440),
  })
  expect(outlook.reason).toBe(
    'Label: 60 min at 25 °C and 50 %. There are no air readings for that time, so that air is assumed. The next coat belongs on within 24 h; after that scuff or sand first. Fully cured after 21 days by the label, later where it stays cold or damp.',
  )
})

test('of a label that lets the next coat go on at once no wait is told', () => {
  const { reason } = forecastNext(
    [lasting(0, 30)],
    {
      chemistry: 'aerosol',
      label: {
        recoatWindows: [
          { fromMinutes: 0, toMinutes: 60 },
          { fromMinutes: 2880 },
        ],
        cureDays: 7,
      },
    },
    undefined,
    clocksIn([]),
  )
  expect(reason).toMatch(/^The label asks for no wait\. The next coat/)
})

test('what was judged ready when it came is forecast ready by then, and the other way round', () => {
  fc.assert(
    fc.property(
      anyReadings,
      anyChemistry,
      anyLabel,
      (readings, chemistry, label) => {
        const clocks = clocksIn(readings)
        const coat = { chemistry, label }
        const { readyAt } = forecastNext([moment(0)], coat, undefined, clocks)
        fc.pre(readyAt !== undefined)
        const verdictAt = (instant: typeof readyAt.latest) =>
          judgeGap(
            {
              earlier: moment(0),
              later: { started: exactly(instant), finished: exactly(instant) },
              purpose: 'recoat',
            },
            coat,
            clocks,
          ).verdict
        expect(readyAt.earliest).toBeGreaterThanOrEqual(at(label.recoatMinutes))
        expect(readyAt.latest).toBeGreaterThanOrEqual(readyAt.earliest)
        expect(['in-window', 'past-window']).toContain(
          verdictAt(readyAt.latest),
        )
      },
    ),
  )
})

test('where readings end, the careful end goes on with the last air and the other with the label’s', () => {
  const { readyAt } = forecastNext(
    [moment(0)],
    { chemistry: 'oil-stain', label: { recoatMinutes: 1440 } },
    undefined,
    clocksIn([reading(0, 18, 60)]),
  )
  // Spirit loss at 18 °C against 23 °C: 1.4536 times the label, worked by hand from Antoine's equation.
  expect((readyAt?.latest ?? NaN) - at(0)).toBeCloseTo(
    1.4536 * 1440 * 60_000,
    -5,
  )
  // Twelve hours at that pace, the rest at the label's: 720 + (1440 - 720 / 1.4536) minutes.
  expect((readyAt?.earliest ?? NaN) - at(0)).toBeCloseTo(
    (720 + 1440 - 720 / 1.4536) * 60_000,
    -5,
  )
})

test('a cold night to come counts for what it is', () => {
  // 18 °C and 60 % from eight to eight, else 6 °C and 85 %; the last reading is at six in the evening.
  const readings = Array.from({ length: 2 * 24 + 19 }, (_, hour) =>
    hour % 24 >= 8 && hour % 24 < 20
      ? reading(hour * 60, 18, 60)
      : reading(hour * 60, 6, 85),
  )
  const evening = (2 * 24 + 18) * 60
  const coat = {
    chemistry: 'waterborne-acrylic' as const,
    label: { recoatMinutes: 240 },
  }
  const { readyAt, reason } = forecastNext(
    [moment(evening)],
    coat,
    undefined,
    clocksIn(readings),
  )
  // Magnus: 1401.9 Pa at 23 °C and 50 %, 823.9 at 18 and 60: 0.5877 of the label's speed; 385.4 at 12 and 72.5: 0.2749; and
  // 140 at 6 and 85, too poor to count on. From six to seven 35.26 minutes of drying, to half past 12.94, to eight 4.12, and
  // the same 17.06 from seven to eight in the morning. The other 170.62 take 290.3 minutes from eight on: ready at 12:50.
  const noon = evening + 14 * 60 + 290.3
  expect(Math.abs((readyAt?.latest ?? NaN) - at(noon))).toBeLessThan(60_000)
  expect(reason).toContain(
    'the air of the day before it is taken to come again',
  )
})

test('in air too damp to tell nothing is promised', () => {
  const outlook = forecastNext(
    [moment(0)],
    enamel,
    undefined,
    clocksIn([reading(0, 8, 99)]),
  )
  expect(outlook).not.toHaveProperty('readyAt')
  expect(outlook.reason).toContain('too cold or too damp to tell')
})

test('air measured long before the coat is not taken to go on', () => {
  const { readyAt } = forecastNext(
    [moment(0)],
    enamel,
    undefined,
    clocksIn([reading(-3000, 8, 99)]),
  )
  expect(readyAt).toEqual({ earliest: at(60), latest: at(60) })
})

test('an uncertain hour makes an uncertain hour', () => {
  expect(
    forecastNext([sometime(0, 60)], enamel, undefined, clocksIn([])),
  ).toMatchObject({
    readyAt: { earliest: at(60), latest: at(120) },
    recoatBy: at(1440),
    curedBy: at(60 + 21 * 1440),
  })
})

test('a scuff takes the end off the window', () => {
  const outlook = forecastNext([moment(0)], enamel, 'scuff', clocksIn([]))
  expect(outlook).toMatchObject({ readyAt: { latest: at(60) } })
  expect(outlook).not.toHaveProperty('recoatBy')
})

test('a window that needs a sand first says so', () => {
  const outlook = forecastNext(
    [moment(0)],
    {
      chemistry: 'oil-alkyd',
      label: { recoatWindows: [{ fromMinutes: 1440, needs: 'sand' }] },
    },
    undefined,
    clocksIn(steadyAir(23, 50)),
  )
  expect(outlook.windows).toEqual([
    { opens: { earliest: at(1440), latest: at(1440) }, needs: 'sand' },
  ])
  expect(outlook.reason).toContain('asks for a sand first')
})

test('a label without times forecasts nothing but its cure', () => {
  expect(
    forecastNext(
      [moment(0)],
      { chemistry: 'other', label: { cureDays: 7 } },
      undefined,
      clocksIn([]),
    ),
  ).toMatchObject({ curedBy: at(7 * 1440), windows: [] })
})

test('where the times leave room, recoat by and cured by are spans with their careful ends first said', () => {
  const early = lasting(0, 30)
  const late = lasting(20, 60)
  const { readyAt, ...outlook } = forecastNext(
    [early, late],
    enamel,
    undefined,
    clocksIn([]),
  )
  expect(readyAt).toEqual({ earliest: at(90), latest: at(120) })
  expect(outlook).toMatchObject({
    recoatBy: at(1440),
    recoatByLatest: at(20 + 1440),
    curedByEarliest: at(30 + 21 * 1440),
    curedBy: at(60 + 21 * 1440),
    windows: [{ closes: at(1440), closesLatest: at(20 + 1440) }, {}],
  })
  const exact = forecastNext([early], enamel, undefined, clocksIn([]))
  expect(exact).not.toHaveProperty('recoatByLatest')
  expect(exact).not.toHaveProperty('curedByEarliest')
})
