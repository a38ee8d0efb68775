/*
 * Dry times worked by hand: the label's time times the ratio the rule of the chemistry gives. Dalton's law for water
 * (saturation pressure: Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601-609), Antoine's equation for solvents (NIST
 * Chemistry WebBook and handbook constants, quoted second-hand), the usual doubling every 10 °C for oxidation, the square
 * (through) and the power 1.5 (recoat, common practice, no source) for thick films. The arithmetic stands beside each.
 * Tolerance 0.1 %, as far as the hand-worked ratios carry.
 */
import { expect, test } from 'vitest'
import { forecastNext } from '#core/drying/forecast-next'
import { filmFactor } from '#core/drying/film-factor'
import { judgeGap } from '#core/drying/judge-gap'
import { vapourPressure } from '#core/drying/vapour-pressure'
import { saturationPressure } from '#core/air/saturation-pressure'
import { vapourPressureDeficit } from '#core/air/vapour-pressure-deficit'
import { dewPoint } from '#core/air/dew-point'
import { relativeHumidity } from '#core/air/relative-humidity'
import type { AirReading } from '#core/air/reading'
import type { Chemistry, Label } from '#core/shelf/product'
import { reading, start, steadyAir } from '../core/air/any-air'
import { clocksIn, moment } from '../core/drying/any-coat'

const iso = { celsius: 23, humidity: 50 }
const hours = 60

const requiredMinutes = (
  chemistry: Chemistry,
  label: Label,
  air: readonly AirReading[],
  filmRatio?: number,
) =>
  judgeGap(
    { earlier: moment(0), later: moment(1), purpose: 'recoat' },
    { chemistry, label, ...(filmRatio !== undefined && { filmRatio }) },
    clocksIn(air),
  ).required ?? NaN

test.each<
  [string, Chemistry, number, Label['reference'], number, number, number]
>([
  // 1401.9 / 510.6 = 2.7456
  [
    'waterborne, cold and damp',
    'waterborne-acrylic',
    4 * hours,
    iso,
    15,
    70,
    10.98 * hours,
  ],
  // 1580.9 / 823.9 = 1.9188
  [
    'waterborne, label at 25 °C',
    'waterborne-acrylic',
    2 * hours,
    { celsius: 25, humidity: 50 },
    18,
    60,
    3.84 * hours,
  ],
  // 1401.9 / 2542.0 = 0.5515, never below the label
  [
    'waterborne, warm and dry',
    'waterborne-acrylic',
    4 * hours,
    iso,
    30,
    40,
    4 * hours,
  ],
  // 1401.9 / 847.3 = 1.6545
  [
    'waterborne, warm and damp',
    'waterborne-acrylic',
    4 * hours,
    iso,
    30,
    80,
    6.62 * hours,
  ],
  // decane 149.8 / 69.6 = 2.151 over 2^(10/10) = 2
  ['oil enamel at 13 °C', 'oil-alkyd', 16 * hours, iso, 13, 50, 34.42 * hours],
  // decane 1.4536 over 2^(5/10) = 1.4142
  ['oil enamel at 18 °C', 'oil-alkyd', 16 * hours, iso, 18, 50, 23.26 * hours],
  // 2^(-10/10) = 0.5, never below the label
  ['oil enamel at 33 °C', 'oil-alkyd', 16 * hours, iso, 33, 50, 16 * hours],
  // ethanol 7017.9 / 3140.6 = 2.2346
  ['shellac primer at 10 °C', 'shellac', 45, iso, 10, 50, 100.6],
  // butyl acetate 1356.7 / 823.4 = 1.6477
  ['lacquer at 15 °C', 'lacquer', 30, iso, 15, 50, 49.43],
  // 2^(8/10) = 1.7411 over 1401.9 / 851.0 = 1.6474
  [
    'waterborne alkyd at 15 °C',
    'waterborne-alkyd',
    8 * hours,
    iso,
    15,
    50,
    13.93 * hours,
  ],
])('%s', (_, chemistry, label, reference, celsius, humidity, expected) => {
  const required = requiredMinutes(
    chemistry,
    { recoatMinutes: label, ...(reference !== undefined && { reference }) },
    steadyAir(celsius, humidity),
  )
  expect(Math.abs(required / expected - 1)).toBeLessThan(0.001)
})

test('three hours cold and damp, then the label’s air: 5.907 hours instead of four', () => {
  // 3 / (4 x 2.7456) = 0.27316 of the way; the rest, 0.72684 x 4 = 2.9074 h, at the label's speed.
  const cold = { celsius: 15, humidity: 70 }
  const moved = start + 3 * hours * 60_000
  const air: AirReading[] = [
    reading(0, cold.celsius, cold.humidity),
    reading(3 * hours, cold.celsius, cold.humidity),
    {
      ...reading(3 * hours, 23, 50),
      at: reading(3 * hours + 1 / 60_000, 0, 1).at,
    },
    reading(12 * hours, 23, 50),
  ]
  expect(air[2]?.at).toBe(moved + 1)
  const required = requiredMinutes(
    'waterborne-acrylic',
    { recoatMinutes: 4 * hours, reference: iso },
    air,
  )
  expect(Math.abs(required / (5.907 * hours) - 1)).toBeLessThan(0.001)
})

test('half as thick again: 1.5 to the power of 1.5 to recoat, squared to be hard through', () => {
  expect(filmFactor(1.5, 'recoat')).toBeCloseTo(1.8371, 4)
  expect(filmFactor(1.5, 'handle')).toBeCloseTo(2.25, 9)
  expect(filmFactor(0.7, 'recoat')).toBe(1)
  const label = { recoatMinutes: 4 * hours, reference: iso }
  const required = requiredMinutes('waterborne-acrylic', label, [], 1.5)
  expect(Math.abs(required / (7.35 * hours) - 1)).toBeLessThan(0.001)
  // The thick film and the cold together: 4 x 2.7456 x 1.8371 = 20.18 h.
  const both = requiredMinutes(
    'waterborne-acrylic',
    label,
    steadyAir(15, 70),
    1.5,
  )
  expect(Math.abs(both / (20.18 * hours) - 1)).toBeLessThan(0.001)
})

test.each([
  // Within the hour x min(1, 0.5), or after 48 h x max(1, 0.5).
  [33, 0.5, 48],
  // Within the hour x min(1, 2), or after 48 h x 2.
  [13, 1, 96],
])('an aerosol at %d °C: within %d h or after %d h', (celsius, by, from) => {
  const outlook = forecastNext(
    [moment(0)],
    {
      chemistry: 'aerosol',
      label: {
        recoatWindows: [
          { fromMinutes: 0, toMinutes: 60 },
          { fromMinutes: 48 * hours },
        ],
        reference: iso,
      },
    },
    undefined,
    clocksIn(steadyAir(celsius, 50)),
  )
  const [early, late] = outlook.windows
  expect(((early?.closes ?? NaN) - start) / 3_600_000).toBeCloseTo(by, 3)
  expect(((late?.opens.latest ?? NaN) - start) / 3_600_000).toBeCloseTo(from, 3)
  expect(late?.closes).toBeUndefined()
})

test('acetone flashes off 1.431 times slower at 15 °C than at 23 °C', () => {
  // 28071 / 19615
  expect(
    vapourPressure('acetone', 23) / vapourPressure('acetone', 15),
  ).toBeCloseTo(1.431, 3)
})

test.each([
  [23, 50, 1401.9],
  [25, 50, 1580.9],
  [21, 50, 1240.9],
  [10, 50, 613.0],
  [15, 70, 510.6],
  [15, 85, 255.3],
  [30, 40, 2542.0],
])(
  'at %d °C and %d %% the air falls %d Pa short of full',
  (celsius, humidity, pascals) => {
    expect(vapourPressureDeficit({ celsius, humidity })).toBeCloseTo(pascals, 1)
  },
)

test.each([
  [0, 610.94],
  [10, 1226.02],
  [20, 2333.44],
  [30, 4236.65],
  [40, 7374.72],
])('at %d °C the Magnus form gives %d Pa', (celsius, pascals) => {
  expect(saturationPressure(celsius)).toBeCloseTo(pascals, 1)
})

test('heating 10 °C at 80 % to 20 °C without adding water leaves 42.0 %', () => {
  // 0.8 x 1226.02 = 980.8 Pa, over 2333.44 Pa.
  const dew = dewPoint({ celsius: 10, humidity: 80 })
  expect(relativeHumidity(20, dew)).toBeCloseTo(42.0, 1)
})
