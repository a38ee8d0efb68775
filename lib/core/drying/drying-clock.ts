import {
  type Accumulation,
  accumulate,
  momentOf,
  totalAt,
} from '#core/air/accumulation'
import { type AirCourse, airCourse } from '#core/air/air-course'
import {
  type Pace,
  paces,
  pacesOf,
  shareOf,
  speedOf,
  standardAir,
  windowSpeed,
} from '#core/drying/drying-speed'
import type { Product, ReferenceAir } from '#core/shelf/product'
import { type Instant, millisecondsPerMinute } from '#core/units'

/**
 * A clock that runs as a coat dries: its minutes are minutes of drying in the label's air. It stands for
 * one chemistry and one reference air in the air there was, and never runs faster than time.
 */
export type DryingClock = {
  /** What is certain, and what is possible: the same where the models hold. */
  readonly low: Accumulation
  readonly high: Accumulation
  /** As `low`, but after the last reading its air goes on for ever: the careful way to look ahead. */
  readonly ahead: Accumulation
  /** The time of recoat windows: never slower than time itself. */
  readonly window: Accumulation
  /** Whether the air makes any difference to this chemistry. */
  readonly isModelled: boolean
  readonly course: AirCourse
  readonly temperature: Accumulation
  readonly humidity: Accumulation
  readonly known: Accumulation
}

/** Gives the clock for a product; clocks that come out the same are shared. */
export type DryingClocks = (
  product: Pick<Product, 'chemistry' | 'label'>,
) => DryingClock

/** The drying clocks for one course of the air. Work is done when a clock is first asked for. */
export function dryingClocks(course: AirCourse): DryingClocks {
  const knots = course.at.length
  const nothing = airCourse([])
  const unmodelled = accumulate(nothing, new Float64Array(0), 1)
  const known = accumulate(course, new Float64Array(knots).fill(1), 0)
  const temperature = accumulate(course, course.celsius, 0)
  const humidity = accumulate(course, course.humidity, 0)
  const clocks = new Map<string, DryingClock>()
  const paceValues = new Map<Pace, Float64Array>()

  const valuesOf = (pace: Pace): Float64Array => {
    const found = paceValues.get(pace)
    if (found !== undefined) return found
    const made = eachKnot(course, (celsius, humidityPercent) =>
      paces[pace]({ celsius, humidity: humidityPercent }),
    )
    paceValues.set(pace, made)
    return made
  }

  const make = (
    chemistry: Product['chemistry'],
    reference: ReferenceAir,
  ): DryingClock => {
    const base = { course, temperature, humidity, known }
    const names = pacesOf[chemistry]
    if (names.length === 0) {
      return {
        ...base,
        low: unmodelled,
        high: unmodelled,
        ahead: unmodelled,
        window: unmodelled,
        isModelled: false,
      }
    }
    const ruling = names.map((pace) => ({
      values: valuesOf(pace),
      reference: paces[pace](reference),
    }))
    const lowValues = new Float64Array(knots)
    const highValues = new Float64Array(knots)
    let isCertain = true
    for (let i = 0; i < knots; i++) {
      let share = 1
      for (const one of ruling) {
        share = Math.min(share, shareOf(one.values[i] ?? 0, one.reference))
      }
      const speed = speedOf(share, course.celsius[i] ?? 0, true)
      lowValues[i] = speed.low
      highValues[i] = speed.high
      if (speed.low !== speed.high) isCertain = false
    }
    const high = accumulate(course, highValues, 1)
    const low = isCertain ? high : accumulate(course, lowValues, 1)
    const window =
      chemistry === 'aerosol'
        ? accumulate(
            course,
            eachKnot(course, (celsius, humidityPercent) =>
              windowSpeed(
                chemistry,
                { celsius, humidity: humidityPercent },
                reference,
              ),
            ),
            1,
          )
        : unmodelled
    const ahead = { ...low, after: lowValues[knots - 1] ?? 1 }
    return { ...base, low, high, ahead, window, isModelled: true }
  }

  return ({ chemistry, label }) => {
    const reference = label.reference ?? standardAir
    const key = `${chemistry} ${reference.celsius} ${reference.humidity}`
    const found = clocks.get(key)
    if (found !== undefined) return found
    const made = make(chemistry, reference)
    clocks.set(key, made)
    return made
  }
}

function eachKnot(
  course: AirCourse,
  value: (celsius: number, humidity: number) => number,
): Float64Array {
  const values = new Float64Array(course.at.length)
  for (let i = 0; i < values.length; i++) {
    values[i] = value(course.celsius[i] ?? NaN, course.humidity[i] ?? NaN)
  }
  return values
}

/** What a clock ran between two moments, in minutes; nothing when they are the wrong way round. */
export function ranBetween(
  clock: Accumulation,
  start: Instant,
  end: Instant,
): number {
  return Math.max(0, totalAt(clock, end) - totalAt(clock, start))
}

/** How long after `start` a clock has run so many minutes, in minutes of time; Infinity when it never has. */
export function timeToRun(
  clock: Accumulation,
  start: Instant,
  length: number,
): number {
  if (length <= 0) return 0
  return (
    (momentOf(clock, totalAt(clock, start) + length) - start) /
    millisecondsPerMinute
  )
}
