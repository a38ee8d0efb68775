import { airAt } from '#core/air/air-course'
import { type DryingClock, timeToRun } from '#core/drying/drying-clock'
import { type Instant, instant, millisecondsPerMinute } from '#core/units'

/** The first moment of a coat, and its last as a span. */
export type Coated = {
  readonly started: Instant
  readonly earliest: Instant
  readonly latest: Instant
}

/**
 * When a coat has dried for so many minutes of its label's air: as early as the times and the air allow, and as late.
 *
 * Never before those minutes are over. Where the readings end, `latest` goes on with the air of the last one.
 *
 * @returns undefined where the air is too poor to tell
 */
export function openingOf(
  minutes: number,
  coated: Coated,
  clock: DryingClock,
): { readonly earliest: Instant; readonly latest: Instant } | undefined {
  // Air that nobody measured when the coat went on cannot be taken to go on.
  const careful =
    airAt(clock.course, coated.latest) === undefined ? clock.low : clock.ahead
  const longest = timeToRun(careful, coated.latest, minutes)
  if (!Number.isFinite(longest)) return undefined
  const earliest = after(
    coated.earliest,
    Math.max(minutes, timeToRun(clock.high, coated.earliest, minutes)),
  )
  const latest = after(coated.latest, Math.max(minutes, longest))
  return { earliest, latest: latest > earliest ? latest : earliest }
}

/** Cut to whole milliseconds on the late side: a wait is never cut short. */
function after(start: Instant, minutes: number): Instant {
  // A rounding error of the sums is no millisecond more.
  return instant(Math.ceil(start + minutes * millisecondsPerMinute - 1e-3))
}
