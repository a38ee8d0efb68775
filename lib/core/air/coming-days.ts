import { type AirCourse, holdMinutes, stretchOf } from '#core/air/air-course'
import { type Accumulation, accumulate } from '#core/air/accumulation'
import { millisecondsPerMinute, minutesPerDay } from '#core/units'

/** So many days are drawn hour by hour; after them their mean goes on. Common practice, no source. */
const daysAhead = 3
const dayMilliseconds = minutesPerDay * millisecondsPerMinute

/** The last day that readings tell of whole, by the moments of the course that lie in it. */
export type LastDay = {
  /** The last reading, epoch milliseconds. */
  readonly ends: number
  /** The first moment of the course in the day, and the moment of the last reading. */
  readonly first: number
  readonly last: number
}

/**
 * The day before the last reading; undefined unless readings reach back over all of it without a gap.
 *
 * Furniture dries by night too: air that is taken to go on as it was in the afternoon promises too much.
 */
export function lastDay(course: AirCourse): LastDay | undefined {
  const last = course.at.length - 2
  const ends = course.at[last]
  const begins = course.at[0]
  if (last < 0 || ends === undefined || begins === undefined) return undefined
  const starts = ends - dayMilliseconds
  // The course begins before its first reading, by as long as a reading is held.
  if (begins + holdMinutes * millisecondsPerMinute > starts) return undefined
  const before = stretchOf(course, starts)
  for (let i = before; i < last; i++) {
    if (course.known[i] !== 1) return undefined
  }
  return { ends, first: before + 1, last }
}

/**
 * A quantity added up from the last reading on, with the last day coming again.
 *
 * @param values at the moments of the course, never negative
 */
export function accumulateAhead(
  course: AirCourse,
  day: LastDay,
  values: Float64Array,
): Accumulation {
  const moments = day.last - day.first + 1
  const length = 1 + moments * daysAhead
  const ahead: AirCourse = {
    at: new Float64Array(length),
    celsius: new Float64Array(length),
    humidity: new Float64Array(length),
    known: new Uint8Array(length).fill(1, 0, length - 1),
  }
  const again = new Float64Array(length)
  const put = (to: number, from: number, days: number) => {
    ahead.at[to] = (course.at[from] ?? NaN) + days * dayMilliseconds
    ahead.celsius[to] = course.celsius[from] ?? NaN
    ahead.humidity[to] = course.humidity[from] ?? NaN
    again[to] = values[from] ?? NaN
  }
  put(0, day.last, 0)
  for (let days = 1; days <= daysAhead; days++) {
    for (let i = 0; i < moments; i++) {
      put(1 + (days - 1) * moments + i, day.first + i, days)
    }
  }
  const sum = accumulate(ahead, again, 0)
  const total = sum.totals[length - 1] ?? 0
  return { ...sum, after: total / (daysAhead * minutesPerDay) }
}
