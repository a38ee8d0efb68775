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

/** The course of air that no readings tell of. */
export const unknownAir: AirCourse = {
  at: new Float64Array(0),
  celsius: new Float64Array(0),
  humidity: new Float64Array(0),
  known: new Uint8Array(0),
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
  const hold = holdMinutes * millisecondsPerMinute
  const longest = longestStretchMinutes * millisecondsPerMinute
  const moments = momentsOf(readings, hold, longest)
  const course = {
    at: new Float64Array(moments),
    celsius: new Float64Array(moments),
    humidity: new Float64Array(moments),
    known: new Uint8Array(moments),
  }
  const length = putReadings(course, readings, hold, longest)
  if (length > 0) {
    const { at, celsius, humidity } = course
    const last = length - 1
    put(
      course,
      length,
      (at[last] ?? NaN) + hold,
      celsius[last] ?? NaN,
      humidity[last] ?? NaN,
      0,
    )
  }
  return course
}

/**
 * Writes what readings tell, up to the last of them; returns how many moments that are. Nothing but the loop, which keeps
 * its numbers in the course itself: so it is made fast code as a whole. By index, as in {@link momentsOf}: walked by an
 * iterator, each reading of a year leaves some 80 bytes to collect.
 */
function putReadings(
  course: AirCourse,
  readings: readonly AirReading[],
  hold: number,
  longest: number,
): number {
  let length = 0
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i]
    if (reading === undefined || !isAir(reading)) continue
    length = putWayTo(course, length, reading, hold, longest)
    put(course, length++, reading.at, reading.celsius, reading.humidity, 1)
  }
  return length
}

/** Writes the moments between the last that is written and a reading; returns how many there are then. */
function putWayTo(
  course: AirCourse,
  length: number,
  { at, celsius, humidity }: AirReading,
  hold: number,
  longest: number,
): number {
  if (length === 0) {
    put(course, 0, at - hold, celsius, humidity, 1)
    return 1
  }
  const before = course.at[length - 1] ?? NaN
  if (at - before <= longest) return length
  const celsiusBefore = course.celsius[length - 1] ?? NaN
  const humidityBefore = course.humidity[length - 1] ?? NaN
  if (at - before > 2 * hold) {
    put(course, length, before + hold, celsiusBefore, humidityBefore, 0)
    put(course, length + 1, at - hold, celsius, humidity, 1)
    return length + 2
  }
  const stretches = Math.ceil((at - before) / longest)
  for (let part = 1; part < stretches; part++) {
    const share = part / stretches
    put(
      course,
      length + part - 1,
      before + (at - before) * share,
      celsiusBefore + (celsius - celsiusBefore) * share,
      humidityBefore + (humidity - humidityBefore) * share,
      1,
    )
  }
  return length + stretches - 1
}

/** Writes one moment of a course. */
function put(
  { at, celsius, humidity, known }: AirCourse,
  i: number,
  moment: number,
  celsiusThen: number,
  humidityThen: number,
  isKnown: 0 | 1,
): void {
  at[i] = moment
  celsius[i] = celsiusThen
  humidity[i] = humidityThen
  known[i] = isKnown
}

/** How many moments the course of these readings has. */
function momentsOf(
  readings: readonly AirReading[],
  hold: number,
  longest: number,
): number {
  let count = 0
  let before = NaN
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i]
    if (reading === undefined || !isAir(reading)) continue
    const { at } = reading
    count += Number.isNaN(before) ? 3 : 1
    const apart = at - before
    if (apart < 0) {
      throw new RangeError(
        `airCourse: expected readings in order of time, got ${at} after ${before}`,
      )
    }
    if (apart > 2 * hold) count += 2
    else if (apart > longest) count += Math.ceil(apart / longest) - 1
    before = at
  }
  return count
}

/**
 * The stretch of the course that holds a moment.
 *
 * @returns the index of the last moment of the course that is not later; -1 before the first
 */
export function stretchOf(course: AirCourse, moment: number): number {
  const { at } = course
  const last = at.length - 1
  if (moment < (at[0] ?? Infinity)) return -1
  if (moment >= (at[last] ?? Infinity)) return last
  // Readings mostly come at even intervals, so the first guess is seldom far off. The air held before the first of them
  // and after the last is longer than that.
  const first = at[1] ?? NaN
  const end = at[last - 1] ?? NaN
  const guess =
    end > first
      ? 1 + Math.floor(((moment - first) / (end - first)) * (last - 2))
      : 1
  return countUpTo(at, moment, guess, true) - 1
}

/**
 * How many of some rising values are below a bound, or not above it.
 *
 * @param guess an index to look from; the closer, the faster
 */
export function countUpTo(
  values: Float64Array,
  bound: number,
  guess: number,
  isBoundCounted: boolean,
): number {
  const from = Math.max(0, Math.min(values.length - 1, guess))
  let low = 0
  let high = values.length
  if (isCounted(values, from, bound, isBoundCounted)) {
    low = from + 1
    for (let step = 1; low + step < high; step *= 2) {
      if (!isCounted(values, low + step, bound, isBoundCounted)) {
        high = low + step
        break
      }
      low += step + 1
    }
  } else {
    high = from
    for (let step = 1; high - step > 0; step *= 2) {
      if (isCounted(values, high - step, bound, isBoundCounted)) {
        low = high - step + 1
        break
      }
      high -= step
    }
  }
  while (low < high) {
    const middle = (low + high) >>> 1
    if (isCounted(values, middle, bound, isBoundCounted)) low = middle + 1
    else high = middle
  }
  return low
}

function isCounted(
  values: Float64Array,
  i: number,
  bound: number,
  isBoundCounted: boolean,
): boolean {
  const value = values[i] ?? Infinity
  return value < bound || (isBoundCounted && value === bound)
}

/** The air at an instant; undefined where nothing is known of it. */
export function airAt(course: AirCourse, at: Instant): Air | undefined {
  const i = stretchOf(course, at)
  const start = course.at[i]
  const celsius = course.celsius[i]
  const humidity = course.humidity[i]
  if (start === undefined || celsius === undefined || humidity === undefined)
    return undefined
  if (start === at) return { celsius, humidity }
  if (course.known[i] !== 1) return undefined
  const share = (at - start) / ((course.at[i + 1] ?? NaN) - start)
  return {
    celsius: celsius + ((course.celsius[i + 1] ?? NaN) - celsius) * share,
    humidity: humidity + ((course.humidity[i + 1] ?? NaN) - humidity) * share,
  }
}
