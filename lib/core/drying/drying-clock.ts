import {
  type Accumulation,
  accumulate,
  momentOf,
  totalAt,
} from '#core/air/accumulation'
import { type AirCourse, stretchOf, unknownAir } from '#core/air/air-course'
import {
  type Pace,
  isTrusted,
  mostOf,
  paceIn,
  pacesIn,
  pacesOf,
  shareOf,
  referenceAir,
  windowSpeed,
} from '#core/drying/drying-speed'
import { accumulateAhead, lastDay } from '#core/air/coming-days'
import type {
  Chemistry,
  Label,
  Product,
  ReferenceAir,
} from '#core/shelf/product'
import { type Instant, millisecondsPerMinute } from '#core/units'

/**
 * A clock that runs as a coat dries: its minutes are minutes of drying in the label's air. It stands for
 * one chemistry and one reference air in the air there was, and never runs faster than time.
 */
export type DryingClock = {
  /** What is certain, and what is possible: the same where the models hold. */
  readonly low: Accumulation
  readonly high: Accumulation
  /** As `low`, but after the last reading its air goes on for ever: a way to look ahead where no whole day is known. */
  readonly ahead: Accumulation
  /** What is certain from the last reading on, with the last day coming again; absent where readings tell of none. */
  readonly comingDays?: Accumulation
  /** The time of recoat windows: never slower than time itself. */
  readonly window: Accumulation
  /** Whether the air makes any difference to this chemistry. */
  readonly isModelled: boolean
  readonly course: AirCourse
  readonly means: () => AirSums
}

/** What the mean of the air over some time is found from: each is 0 where nothing is known. */
export type AirSums = {
  readonly temperature: Accumulation
  readonly humidity: Accumulation
  /** Adds up to the time of which something is known. */
  readonly known: Accumulation
}

/** Gives the clock for a product; clocks that come out the same are shared. */
export type DryingClocks = (
  product: Pick<Product, 'chemistry' | 'label'>,
) => DryingClock

/** A clock that runs as time does, whatever the air. */
const unmodelled = accumulate(unknownAir, new Float64Array(0), 1)

/** The drying clocks for one course of the air. Work is done when a clock is first asked for. */
export function dryingClocks(course: AirCourse): DryingClocks {
  const knots = course.at.length
  let sums: AirSums | undefined
  const means = (): AirSums =>
    (sums ??= {
      temperature: accumulate(course, course.celsius, 0),
      humidity: accumulate(course, course.humidity, 0),
      known: accumulate(course, new Float64Array(knots).fill(1), 0),
    })
  const clocks = new Map<string, DryingClock>()
  const day = lastDay(course)
  const paceValues = new Map<Pace, Float64Array>()

  const valuesOf = (pace: Pace): Float64Array => {
    const found = paceValues.get(pace)
    if (found !== undefined) return found
    const made = pacesIn(pace, course)
    paceValues.set(pace, made)
    return made
  }

  const windowClock = (reference: ReferenceAir): Accumulation => {
    const referencePace = paceIn('oxidation', reference)
    return accumulate(
      course,
      valuesOf('oxidation').map((pace) =>
        windowSpeed(shareOf(pace, referencePace)),
      ),
      1,
    )
  }

  const make = (chemistry: Chemistry, reference: ReferenceAir): DryingClock => {
    const base = { course, means }
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
    const shares = new Float64Array(knots).fill(1)
    for (const pace of names) {
      slow(shares, valuesOf(pace), paceIn(pace, reference))
    }
    const lowValues = withoutDoubtful(shares, course.celsius)
    if (lowValues !== shares) raiseDoubtful(shares, lowValues)
    const high = accumulate(course, shares, 1)
    const low = lowValues === shares ? high : accumulate(course, lowValues, 1)
    const window = chemistry === 'aerosol' ? windowClock(reference) : unmodelled
    const ahead = { ...low, after: lowValues[knots - 1] ?? 1 }
    return {
      ...base,
      low,
      high,
      ahead,
      ...(day !== undefined && {
        comingDays: accumulateAhead(course, day, lowValues),
      }),
      window,
      isModelled: true,
    }
  }

  // Products are asked for again with every gap: found by the label itself, made only once for the same air.
  const byLabel = new Map<Label, Map<Chemistry, DryingClock>>()
  return ({ chemistry, label }) => {
    const found = byLabel.get(label)?.get(chemistry)
    if (found !== undefined) return found
    const reference = referenceAir(label)
    const ruling = pacesOf[chemistry].join(' ')
    const key = `${ruling} ${chemistry === 'aerosol' ? 'aerosol' : ''} ${reference.celsius} ${reference.humidity}`
    const clock = clocks.get(key) ?? make(chemistry, reference)
    clocks.set(key, clock)
    const sameLabel = byLabel.get(label) ?? new Map<Chemistry, DryingClock>()
    byLabel.set(label, sameLabel.set(chemistry, clock))
    return clock
  }
}

/** Lowers shares to those of another pace, where that is the slower. */
function slow(
  shares: Float64Array,
  paces: Float64Array,
  referencePace: number,
): void {
  for (let i = 0; i < shares.length; i++) {
    shares[i] = Math.min(shares[i] ?? 1, shareOf(paces[i] ?? 0, referencePace))
  }
}

/** The shares with 0 for those that may not be counted on; the same array where all may be. */
function withoutDoubtful(
  shares: Float64Array,
  celsius: Float64Array,
): Float64Array {
  let counted = shares
  for (let i = 0; i < shares.length; i++) {
    if (isTrusted(shares[i] ?? 0, celsius[i] ?? NaN)) continue
    if (counted === shares) counted = shares.slice()
    counted[i] = 0
  }
  return counted
}

/** Raises shares that may not be counted on to what they may be at most. */
function raiseDoubtful(shares: Float64Array, counted: Float64Array): void {
  for (let i = 0; i < shares.length; i++) {
    if (counted[i] === 0) shares[i] = mostOf(shares[i] ?? 0)
  }
}

/** What a clock ran between two moments, in minutes; nothing when they are the wrong way round. */
export function ranBetween(
  clock: Accumulation,
  start: Instant,
  end: Instant,
): number {
  if (end <= start) return 0
  // Nothing is known of the air: the clock runs evenly.
  if (clock.course.at.length === 0)
    return ((end - start) / millisecondsPerMinute) * clock.unknown
  return Math.max(0, totalAt(clock, end) - totalAt(clock, start))
}

/** How long after `start` a clock has run so many minutes, in minutes of time; Infinity when it never has. */
export function timeToRun(
  clock: Accumulation,
  start: Instant,
  length: number,
): number {
  if (length <= 0) return 0
  const i = stretchOf(clock.course, start)
  return (
    (momentOf(clock, totalAt(clock, start, i) + length, i) - start) /
    millisecondsPerMinute
  )
}
