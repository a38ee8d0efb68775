/*
 * ISO 8502-4, guidance on the probability of condensation: a surface is coated only while it is at least 3 °C above the
 * dew point. The rule as quoted on data sheets; the standard itself was not at hand. Dew points and humidities worked by
 * hand from the Magnus form (Alduchov and Eskridge 1996), to the last digit printed here.
 */
import { expect, test } from 'vitest'
import { dewPoint } from '#core/air/dew-point'
import { airCourse } from '#core/air/air-course'
import { airWarnings } from '#core/timeline/air-warnings'
import { moment } from '../core/drying/any-coat'
import { steadyAir } from '../core/air/any-air'

test('at 20 °C and 70 % a surface at 16 °C is too cold to coat, one at 18 °C is not', () => {
  const dew = dewPoint({ celsius: 20, humidity: 70 })
  expect(dew).toBeCloseTo(14.36, 2)
  expect(16 - dew).toBeLessThan(3)
  expect(18 - dew).toBeGreaterThan(3)
})

test.each([
  [5, 2.31],
  [15, 2.5],
  [20, 2.6],
  [25, 2.7],
  [30, 2.8],
])(
  'at %d °C and 85 %% the air is %d °C above its dew point',
  (celsius, gap) => {
    expect(celsius - dewPoint({ celsius, humidity: 85 })).toBeCloseTo(gap, 2)
  },
)

test.each([
  [5, 80.9],
  [15, 82.3],
  [20, 82.9],
  [25, 83.5],
  [30, 84],
])('at %d °C the warning begins above %d %%', (celsius, humidity) => {
  const warned = (percent: number) =>
    airWarnings(
      { id: 'coat', product: undefined },
      moment(0),
      airCourse(steadyAir(celsius, percent)),
    ).some((warning) => warning.kind === 'dew-point')
  expect(warned(humidity - 0.1)).toBe(false)
  expect(warned(humidity + 0.1)).toBe(true)
})
