/*
 * PsychroLib 1.1.1 (npm `psychrolib`, MIT), which implements ASHRAE Handbook Fundamentals 2017, chapter 1
 * (Hyland and Wexler): asked live, so no number here is typed. https://github.com/psychrometrics/psychrolib
 *
 * The Magnus form of ours and Hyland-Wexler are different fits to the same measurements: 0.3 % in pressure from 0 to
 * 40 °C, 0.05 °C in dew point above 0 °C (below it the library means frost over ice).
 */
import psychrolib from 'psychrolib'
import { beforeAll, expect, test } from 'vitest'
import { dewPoint } from '#core/air/dew-point'
import { humidityRatio } from '#core/air/humidity-ratio'
import { relativeHumidity } from '#core/air/relative-humidity'
import { saturationPressure } from '#core/air/saturation-pressure'
import { vapourPressureDeficit } from '#core/air/vapour-pressure-deficit'

beforeAll(() => {
  psychrolib.SetUnitSystem(psychrolib.SI)
})

const temperatures = Array.from({ length: 81 }, (_, i) => i / 2)
const humidities = Array.from({ length: 20 }, (_, i) => 5 * (i + 1))

test('the saturation pressure is the handbook’s to 0.3 %', () => {
  for (const celsius of temperatures) {
    const handbook = psychrolib.GetSatVapPres(celsius)
    expect(
      Math.abs(saturationPressure(celsius) / handbook - 1),
      `at ${celsius} °C`,
    ).toBeLessThan(0.003)
  }
})

test('the dew point is the handbook’s to a twentieth of a degree', () => {
  let compared = 0
  for (const celsius of temperatures) {
    for (const humidity of humidities) {
      const handbook = psychrolib.GetTDewPointFromRelHum(
        celsius,
        humidity / 100,
      )
      if (handbook <= 0) continue
      compared++
      expect(
        Math.abs(dewPoint({ celsius, humidity }) - handbook),
        `at ${celsius} °C and ${humidity} %`,
      ).toBeLessThan(0.05)
    }
  }
  expect(compared).toBeGreaterThan(800)
})

test('the humidity from the dew point is the handbook’s to 0.3 %', () => {
  for (const celsius of temperatures) {
    for (let dew = 0; dew <= celsius; dew += 0.5) {
      const handbook = 100 * psychrolib.GetRelHumFromTDewPoint(celsius, dew)
      expect(
        Math.abs(relativeHumidity(celsius, dew) / handbook - 1),
        `at ${celsius} °C, dew point ${dew} °C`,
      ).toBeLessThan(0.003)
    }
  }
})

test('what dry times rest on, the ratio of two deficits, is the handbook’s to 0.25 %', () => {
  const handbook = (celsius: number, humidity: number) =>
    psychrolib.GetSatVapPres(celsius) * (1 - humidity / 100)
  for (const celsius of temperatures) {
    for (const humidity of humidities.filter((one) => one < 100)) {
      const ours =
        vapourPressureDeficit({ celsius: 23, humidity: 50 }) /
        vapourPressureDeficit({ celsius, humidity })
      const theirs = handbook(23, 50) / handbook(celsius, humidity)
      expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.0025)
    }
  }
})

test('the humidity ratio is the handbook’s to 0.35 %', () => {
  for (const celsius of temperatures) {
    for (const humidity of humidities) {
      const handbook = psychrolib.GetHumRatioFromRelHum(
        celsius,
        humidity / 100,
        101_325,
      )
      expect(
        Math.abs(humidityRatio({ celsius, humidity }) / handbook - 1),
        `at ${celsius} °C and ${humidity} %`,
      ).toBeLessThan(0.0035)
    }
  }
})
