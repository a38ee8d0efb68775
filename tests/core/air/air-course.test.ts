import fc from 'fast-check'
import { expect, test } from 'vitest'
import { accumulate, momentOf, totalAt } from '#core/air/accumulation'
import { airAt, airCourse } from '#core/air/air-course'
import { anyReadings, at, minute, reading } from './any-air'

test('between two readings the air runs straight', () => {
  const course = airCourse([reading(0, 10, 80), reading(120, 20, 60)])
  expect(airAt(course, at(0))).toMatchObject({ celsius: 10, humidity: 80 })
  const quarter = airAt(course, at(30))
  expect(quarter?.celsius).toBeCloseTo(12.5, 9)
  expect(quarter?.humidity).toBeCloseTo(75, 9)
})

test('a reading is held for twelve hours beyond the first and the last, and no longer', () => {
  const course = airCourse([reading(0, 10, 80)])
  expect(airAt(course, at(720))).toMatchObject({ celsius: 10, humidity: 80 })
  expect(airAt(course, at(721))).toBeUndefined()
  expect(airAt(course, at(-720))).toMatchObject({ celsius: 10, humidity: 80 })
  expect(airAt(course, at(-721))).toBeUndefined()
})

test('readings more than a day apart leave a hole in the middle', () => {
  const course = airCourse([reading(0, 10, 80), reading(3000, 20, 60)])
  expect(airAt(course, at(700))).toMatchObject({ celsius: 10 })
  expect(airAt(course, at(1500))).toBeUndefined()
  expect(airAt(course, at(2300))).toMatchObject({ celsius: 20 })
})

test('without readings nothing is known', () => {
  expect(airAt(airCourse([]), at(0))).toBeUndefined()
})

test('a reading that no air can have is left out', () => {
  expect(airCourse([reading(0, 20, 0), reading(1, 99, 50)]).at).toHaveLength(0)
})

test('readings out of order are refused', () => {
  expect(() => airCourse([reading(1, 20, 50), reading(0, 20, 50)])).toThrow(
    RangeError,
  )
})

test('a sum over a split time is the sum of its parts', () => {
  const anyMinute = fc.double({ min: -5000, max: 70_000, noNaN: true })
  fc.assert(
    fc.property(
      anyReadings,
      anyMinute,
      anyMinute,
      anyMinute,
      (readings, a, b, c) => {
        const course = airCourse(readings)
        const sum = accumulate(course, course.humidity, 50)
        const between = (from: number, to: number) =>
          totalAt(sum, at(to)) - totalAt(sum, at(from))
        expect(between(a, b) + between(b, c)).toBeCloseTo(between(a, c), 4)
      },
    ),
  )
})

test('the moment at which a sum is reached has that sum', () => {
  fc.assert(
    fc.property(
      anyReadings,
      fc.double({ min: -100_000, max: 5_000_000, noNaN: true }),
      (readings, total) => {
        const course = airCourse(readings)
        const sum = accumulate(course, course.humidity, 50)
        expect(totalAt(sum, momentOf(sum, total))).toBeCloseTo(total, 4)
      },
    ),
  )
})

test('a sum that never grows again is never reached', () => {
  const course = airCourse([reading(0, 20, 50)])
  const sum = accumulate(course, course.humidity, 0)
  const whole = totalAt(sum, at(1e6))
  expect(whole).toBeCloseTo(1440 * 50, 6)
  expect(momentOf(sum, whole + 1)).toBe(Infinity)
  expect(momentOf(sum, whole / 2)).toBeCloseTo(at(0), -1)
  expect(momentOf(sum, 0)).toBe(at(0) - 720 * minute)
})
