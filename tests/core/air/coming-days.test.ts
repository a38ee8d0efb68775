import fc from 'fast-check'
import { expect, test } from 'vitest'
import { totalAt } from '#core/air/accumulation'
import { airCourse } from '#core/air/air-course'
import { accumulateAhead, lastDay } from '#core/air/coming-days'
import { anyReadings, at, reading } from './any-air'

const day = 1440

/** Warm by day, cold by night, a reading each hour for so many hours. */
const days = (hours: number) =>
  Array.from({ length: hours + 1 }, (_, hour) =>
    reading(hour * 60, hour % 24 >= 8 && hour % 24 < 20 ? 20 : 6, 60),
  )

test('a whole day of readings is a day that can come again, half of one is not', () => {
  expect(lastDay(airCourse([]))).toBeUndefined()
  expect(lastDay(airCourse(days(23)))).toBeUndefined()
  expect(lastDay(airCourse(days(24)))?.ends).toBe(at(day))
})

test('a gap in the day makes it no whole day', () => {
  const broken = [reading(0, 20, 50), reading(10 * day, 20, 50)]
  expect(lastDay(airCourse(broken))).toBeUndefined()
})

test('each coming day adds what the last one did, hour by hour', () => {
  const course = airCourse(days(60))
  const last = lastDay(course)
  if (last === undefined) throw new Error('there is a whole day')
  const sum = accumulateAhead(course, last, course.celsius)
  const past = (minutes: number) => {
    // The mean of two temperatures an hour apart, added up by hand.
    let total = 0
    for (let hour = 36; hour < 36 + minutes / 60; hour++) {
      const degrees = (one: number) => (one % 24 >= 8 && one % 24 < 20 ? 20 : 6)
      total += ((degrees(hour) + degrees(hour + 1)) / 2) * 60
    }
    return total
  }
  for (const minutes of [60, 300, 720, 1440]) {
    expect(totalAt(sum, at(60 * 60 + minutes))).toBeCloseTo(past(minutes), 6)
    expect(totalAt(sum, at(60 * 60 + day + minutes))).toBeCloseTo(
      past(day) + past(minutes),
      6,
    )
  }
  // Long after, the mean of the day goes on.
  expect(totalAt(sum, at(60 * 60 + 10 * day))).toBeCloseTo(10 * past(day), 5)
})

test('it is of the day before the last reading and of no other', () => {
  fc.assert(
    fc.property(anyReadings, (readings) => {
      const course = airCourse(readings)
      const last = lastDay(course)
      fc.pre(last !== undefined)
      expect(last.ends).toBe(readings.at(-1)?.at)
      expect(course.at[last.first]).toBeGreaterThan(last.ends - day * 60_000)
    }),
  )
})
