import { airAt } from '#core/air/air-course'
import {
  type DryingClock,
  ranBetween,
  timeToRun,
} from '#core/drying/drying-clock'
import {
  type Instant,
  instant,
  millisecondsPerMinute,
  minutesBetween,
} from '#core/units'

/** The first moment of a coat as a span, and its last. */
export type Coated = {
  readonly started: Instant
  readonly startedLatest: Instant
  readonly earliest: Instant
  readonly latest: Instant
}

/**
 * When a coat has dried for so many minutes of its label's air: as early as the times and the air allow, and as late.
 *
 * Never before those minutes are over. Where the readings end, `latest` goes on with the last day's course again, or with
 * the air of the last reading where readings tell of no whole day.
 *
 * @returns undefined where the air is too poor to tell
 */
export function openingOf(
  minutes: number,
  coated: Coated,
  clock: DryingClock,
): { readonly earliest: Instant; readonly latest: Instant } | undefined {
  const longest = longestRun(clock, coated.latest, minutes)
  if (!Number.isFinite(longest)) return undefined
  const earliest = after(
    coated.earliest,
    Math.max(minutes, timeToRun(clock.high, coated.earliest, minutes)),
  )
  const latest = after(coated.latest, Math.max(minutes, longest))
  return { earliest, latest: latest > earliest ? latest : earliest }
}

/** How long it takes at most, in minutes, as far as can be told; Infinity where it cannot. */
function longestRun(
  clock: DryingClock,
  start: Instant,
  minutes: number,
): number {
  // Air that nobody measured when the coat went on cannot be taken to go on.
  if (airAt(clock.course, start) === undefined)
    return timeToRun(clock.low, start, minutes)
  const { comingDays } = clock
  if (comingDays === undefined) return timeToRun(clock.ahead, start, minutes)
  const lastReading = instant(comingDays.course.at[0] ?? NaN)
  // Until the next reading comes a coat is judged by the last one, held for hours: never promise it earlier than that.
  const judged = timeToRun(clock.low, start, minutes)
  if (start >= lastReading)
    return Math.max(judged, timeToRun(comingDays, start, minutes))
  const left = minutes - ranBetween(clock.low, start, lastReading)
  return left <= 0
    ? judged
    : Math.max(
        judged,
        minutesBetween(start, lastReading) +
          timeToRun(comingDays, lastReading, left),
      )
}

/** Cut to whole milliseconds on the late side: a wait is never cut short. */
function after(start: Instant, minutes: number): Instant {
  // A rounding error of the sums is no millisecond more.
  return instant(Math.ceil(start + minutes * millisecondsPerMinute - 1e-3))
}
