import { type AirCourse, countUpTo, stretchOf } from '#core/air/air-course'
import { millisecondsPerMinute } from '#core/units'

/**
 * A quantity that depends on the air, added up over time, so that its sum between any two moments costs
 * two look-ups however many readings lie between them.
 */
export type Accumulation = {
  readonly course: AirCourse
  /** The quantity at each moment of the course; straight in between where the air is known. */
  readonly values: Float64Array
  /** Its value where nothing is known of the air. */
  readonly unknown: number
  /** Its value after the last moment of the course. */
  readonly after: number
  /** Value times minutes, from the first moment of the course up to each. */
  readonly totals: Float64Array
}

/** Adds up a quantity over a course of the air: `values` at its moments, never negative. */
export function accumulate(
  course: AirCourse,
  values: Float64Array,
  unknown: number,
): Accumulation {
  const totals = totalsOf(course, values, unknown)
  return { course, values, unknown, after: unknown, totals }
}

/** Value times minutes up to each moment. Nothing but the loop: it is made fast code by itself. */
function totalsOf(
  { at, known }: AirCourse,
  values: Float64Array,
  unknown: number,
): Float64Array {
  const totals = new Float64Array(values.length)
  for (let i = 1; i < values.length; i++) {
    const minutes = (item(at, i) - item(at, i - 1)) / millisecondsPerMinute
    const grown =
      known[i - 1] === 1
        ? ((item(values, i - 1) + item(values, i)) / 2) * minutes
        : unknown * minutes
    totals[i] = item(totals, i - 1) + grown
  }
  return totals
}

/**
 * The sum from the first moment of the course to `moment` (epoch milliseconds); negative before it.
 *
 * @param i the stretch that holds the moment, where it is known already
 */
export function totalAt(
  sum: Accumulation,
  moment: number,
  i = stretchOf(sum.course, moment),
): number {
  const { course, values, totals } = sum
  if (i < 0) {
    return (
      ((moment - (course.at[0] ?? 0)) / millisecondsPerMinute) * sum.unknown
    )
  }
  const into = (moment - item(course.at, i)) / millisecondsPerMinute
  const before = item(totals, i)
  if (i === values.length - 1) return before + into * sum.after
  if (course.known[i] !== 1) return before + into * sum.unknown
  const start = item(values, i)
  return before + into * (start + (slopeOf(sum, i) * into) / 2)
}

/**
 * The first moment (epoch milliseconds, fractions kept) at which the sum is `total`.
 *
 * @param guess a stretch to look from; the closer, the faster
 * @returns Infinity when it never is
 */
export function momentOf(sum: Accumulation, total: number, guess = 0): number {
  const { course, values, totals } = sum
  const [beginning] = course.at
  if (total === 0 && beginning !== undefined) return beginning
  if (beginning === undefined || total < 0) {
    return (beginning ?? 0) + (total / sum.unknown) * millisecondsPerMinute
  }
  const i = countUpTo(totals, total, guess, false) - 1
  const left = total - item(totals, i)
  const start =
    i === values.length - 1
      ? sum.after
      : course.known[i] === 1
        ? item(values, i)
        : sum.unknown
  const slope =
    i < values.length - 1 && course.known[i] === 1 ? slopeOf(sum, i) : 0
  // The root of start x + slope x²/2 = left in the form that loses no digits when the slope is small.
  const root = Math.sqrt(Math.max(0, start * start + 2 * slope * left))
  return (
    item(course.at, i) + ((2 * left) / (start + root)) * millisecondsPerMinute
  )
}

function slopeOf(sum: Accumulation, i: number): number {
  const { course, values } = sum
  const length =
    (item(course.at, i + 1) - item(course.at, i)) / millisecondsPerMinute
  return (item(values, i + 1) - item(values, i)) / length
}

function item(array: Float64Array, i: number): number {
  return array[i] ?? NaN
}
