import { type Air, isAir } from '#core/air/air'
import type { AirReading } from '#core/air/reading'
import {
  type Instant,
  millisecondsPerMinute,
  minutesPerHour,
} from '#core/units'

/**
 * How long a reading stands for the air before the first and after the last of a run of readings.
 * Readings up to twice as far apart are joined by a straight line. Common practice, no source.
 *
 * Holding is the careful side: where nothing is known the label's own air is taken, in which a coat
 * dries as fast as we ever reckon.
 */
export const holdMinutes = 12 * minutesPerHour

/** Between readings the air is followed in steps no longer than this, so that curves stay curves. */
const longestStretchMinutes = 30

/**
 * The air of the workshop as it went, as stretches between moments (`at`, rising, epoch milliseconds).
 *
 * From moment `i` to the next, temperature and humidity run straight from their values at `i` to those
 * at the next when `known[i]` is 1; else nothing is known. The last `known` is 0, and before the first
 * moment nothing is known either.
 */
export type AirCourse = {
  readonly at: Float64Array
  readonly celsius: Float64Array
  readonly humidity: Float64Array
  readonly known: Uint8Array
}

/**
 * The course of the air that these readings tell: straight between readings, held for twelve hours
 * beyond them, unknown elsewhere.
 *
 * Readings for which the formulas for moist air do not hold (see `Air`) are left out.
 *
 * @param readings in order of time
 * @throws RangeError when they are not in order
 */
export function airCourse(readings: readonly AirReading[]): AirCourse {
  const usable = readings.filter(isAir)
  const hold = holdMinutes * millisecondsPerMinute
  const longest = longestStretchMinutes * millisecondsPerMinute
  const at: number[] = []
  const celsius: number[] = []
  const humidity: number[] = []
  const known: number[] = []
  const add = (moment: number, air: Air, isKnown: 0 | 1) => {
    at.push(moment)
    celsius.push(air.celsius)
    humidity.push(air.humidity)
    known.push(isKnown)
  }
  let previous: AirReading | undefined
  for (const reading of usable) {
    if (previous === undefined) add(reading.at - hold, reading, 1)
    else {
      const apart = reading.at - previous.at
      if (apart < 0) {
        throw new RangeError(
          `airCourse: expected readings in order of time, got ${reading.at} after ${previous.at}`,
        )
      }
      if (apart > 2 * hold) {
        add(previous.at + hold, previous, 0)
        add(reading.at - hold, reading, 1)
      } else {
        const stretches = Math.ceil(apart / longest)
        for (let i = 1; i < stretches; i++) {
          const share = i / stretches
          add(previous.at + apart * share, between(previous, reading, share), 1)
        }
      }
    }
    add(reading.at, reading, 1)
    previous = reading
  }
  if (previous !== undefined) add(previous.at + hold, previous, 0)
  return {
    at: Float64Array.from(at),
    celsius: Float64Array.from(celsius),
    humidity: Float64Array.from(humidity),
    known: Uint8Array.from(known),
  }
}

function between(start: Air, end: Air, share: number): Air {
  return {
    celsius: start.celsius + (end.celsius - start.celsius) * share,
    humidity: start.humidity + (end.humidity - start.humidity) * share,
  }
}

/**
 * The stretch of the course that holds a moment.
 *
 * @returns the index of the last moment of the course that is not later; -1 before the first
 */
export function stretchOf(course: AirCourse, moment: number): number {
  let low = 0
  let high = course.at.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if ((course.at[middle] ?? Infinity) <= moment) low = middle + 1
    else high = middle
  }
  return low - 1
}

/** The air at an instant; undefined where nothing is known of it. */
export function airAt(course: AirCourse, at: Instant): Air | undefined {
  const i = stretchOf(course, at)
  const start = knotOf(course, i)
  if (start === undefined) return undefined
  if (start.at === at) return start
  if (course.known[i] !== 1) return undefined
  const end = knotOf(course, i + 1)
  if (end === undefined) return undefined
  return between(start, end, (at - start.at) / (end.at - start.at))
}

function knotOf(
  course: AirCourse,
  i: number,
): (Air & { readonly at: number }) | undefined {
  const at = course.at[i]
  const celsius = course.celsius[i]
  const humidity = course.humidity[i]
  if (at === undefined || celsius === undefined || humidity === undefined)
    return undefined
  return { at, celsius, humidity }
}
