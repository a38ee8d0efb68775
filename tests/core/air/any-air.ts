import fc from 'fast-check'
import type { AirReading } from '#core/air/reading'
import { instant } from '#core/units'

/** The start of all times in tests: nothing depends on it. */
export const start = Date.UTC(2026, 9, 24, 8)
export const minute = 60_000

/** The instant so many minutes after the start of all times. */
export const at = (minutes: number) =>
  instant(start + Math.round(minutes * minute))

/** A reading so many minutes after the start of all times. */
export const reading = (
  minutes: number,
  celsius: number,
  humidity: number,
): AirReading => ({ at: at(minutes), celsius, humidity })

/** Air that does not change for so many minutes, from a day before the start of all times. */
export const steadyAir = (
  celsius: number,
  humidity: number,
  minutes = 30 * 1440,
): readonly AirReading[] => {
  const readings: AirReading[] = []
  for (let i = -1440; i <= minutes; i += 720)
    readings.push(reading(i, celsius, humidity))
  return readings
}

/** Air in which the models hold. */
export const anyAir = fc.record({
  celsius: fc.double({ min: 0, max: 40, noNaN: true }),
  humidity: fc.double({ min: 1, max: 100, noNaN: true }),
})

/** Readings in order of time, some close together, some days apart. */
export const anyReadings = fc
  .array(
    fc.record({
      apart: fc.oneof(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 60, max: 4000 }),
      ),
      // Never 0 °C to the last digit, where estimates begin: a rounding error would decide.
      celsius: fc.integer({ min: -50, max: 450 }).map((n) => n / 10 + 0.05),
      humidity: fc.double({ min: 1, max: 100, noNaN: true }),
    }),
    { maxLength: 30 },
  )
  .map((steps) => {
    let minutes = -2000
    return steps.map(({ apart, celsius, humidity }) => {
      minutes += apart
      return reading(minutes, celsius, humidity)
    })
  })
