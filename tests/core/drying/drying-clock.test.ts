import fc from 'fast-check'
import { expect, test } from 'vitest'
import { airAt, airCourse } from '#core/air/air-course'
import { ranBetween, timeToRun } from '#core/drying/drying-clock'
import { dryingSpeed, standardAir } from '#core/drying/drying-speed'
import { anyReadings, at, reading, steadyAir } from '../air/any-air'
import { anyChemistry, anyReference, clocksIn } from './any-coat'
import { slowDrying } from './slow-drying'

const anyMinute = fc.integer({ min: -4000, max: 40_000 })

test('the sums give what walking all readings again gives', () => {
  fc.assert(
    fc.property(
      anyReadings,
      anyChemistry,
      anyReference,
      anyMinute,
      anyMinute,
      (readings, chemistry, reference, from, to) => {
        const clock = clocksIn(readings)({ chemistry, label: { reference } })
        const slow = slowDrying(
          readings,
          chemistry,
          reference,
          at(from),
          at(to),
        )
        expect(ranBetween(clock.low, at(from), at(to))).toBeCloseTo(slow.low, 5)
        expect(ranBetween(clock.high, at(from), at(to))).toBeCloseTo(
          slow.high,
          5,
        )
      },
    ),
    { numRuns: 300 },
  )
})

test('half an hour at a time is as good as minute by minute, to half a percent', () => {
  // Readings twelve hours apart, between 5 and 30 °C, away from the limit where estimates end.
  const readings = [
    reading(0, 12, 60),
    reading(720, 30, 35),
    reading(1440, 14, 60),
  ]
  const course = airCourse(readings)
  const clock = clocksIn(readings)({
    chemistry: 'waterborne-acrylic',
    label: {},
  })
  let byTheMinute = 0
  for (let i = 0; i < 1440; i++) {
    const air = airAt(course, at(i + 0.5)) ?? standardAir
    byTheMinute += dryingSpeed('waterborne-acrylic', air, standardAir).low
  }
  const bySums = ranBetween(clock.low, at(0), at(1440))
  expect(Math.abs(bySums / byTheMinute - 1)).toBeLessThan(0.005)
})

test('a drying clock never runs faster than time, nor backwards', () => {
  fc.assert(
    fc.property(
      anyReadings,
      anyChemistry,
      anyReference,
      anyMinute,
      fc.nat(20_000),
      (readings, chemistry, reference, from, length) => {
        const clock = clocksIn(readings)({ chemistry, label: { reference } })
        const ran = ranBetween(clock.high, at(from), at(from + length))
        expect(ran).toBeLessThanOrEqual(length + 1e-6)
        expect(
          ranBetween(clock.low, at(from), at(from + length)),
        ).toBeLessThanOrEqual(ran + 1e-6)
        expect(ranBetween(clock.high, at(from + length), at(from))).toBe(0)
      },
    ),
  )
})

test('the clock of a window never runs slower than time', () => {
  fc.assert(
    fc.property(
      anyReadings,
      anyChemistry,
      anyReference,
      anyMinute,
      fc.nat(20_000),
      (readings, chemistry, reference, from, length) => {
        const clock = clocksIn(readings)({ chemistry, label: { reference } })
        expect(
          ranBetween(clock.window, at(from), at(from + length)),
        ).toBeGreaterThanOrEqual(length - 1e-6)
      },
    ),
  )
})

test('a clock has run what it was asked to run', () => {
  fc.assert(
    fc.property(
      anyReadings,
      anyChemistry,
      anyReference,
      anyMinute,
      fc.double({ min: 0, max: 20_000, noNaN: true }),
      (readings, chemistry, reference, from, length) => {
        const clock = clocksIn(readings)({ chemistry, label: { reference } })
        const needed = timeToRun(clock.high, at(from), length)
        expect(needed).toBeGreaterThanOrEqual(length - 1e-6)
        // Instants are whole milliseconds.
        expect(
          Math.abs(
            ranBetween(clock.high, at(from), at(from + needed)) - length,
          ),
        ).toBeLessThan(1e-4)
      },
    ),
  )
})

test('air too damp to tell counts for nothing for certain, and for a sixth at most', () => {
  const clock = clocksIn(steadyAir(8, 99))({
    chemistry: 'waterborne-acrylic',
    label: {},
  })
  expect(ranBetween(clock.low, at(0), at(600))).toBe(0)
  expect(ranBetween(clock.high, at(0), at(600))).toBeCloseTo(100, 6)
})

test('looking ahead, the air of the last reading goes on', () => {
  const clock = clocksIn([reading(0, 13, 50)])({
    chemistry: 'aerosol',
    label: {},
  })
  // Ten degrees under the label's 23 °C: half as fast.
  expect(timeToRun(clock.ahead, at(0), 1440)).toBeCloseTo(2880, 4)
  expect(timeToRun(clock.low, at(0), 1440)).toBeCloseTo(720 + 1080, 4)
})
