import type { BenchEntry } from '#core/bench/bench'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'

/**
 * The first moment after `at` at which one of the entries may stand elsewhere on the bench; what was judged at `at` holds
 * until then.
 *
 * @returns undefined when nothing changes any more
 */
export function nextChange(
  entries: readonly BenchEntry[],
  at: Instant,
): Instant | undefined {
  let first: Instant | undefined
  const consider = (moment: Instant | undefined) => {
    if (moment === undefined || moment <= at) return
    if (first === undefined || moment < first) first = moment
  }
  for (const entry of entries) {
    consider(entry.curedBy)
    consider(entry.doneFrom)
    consider(entry.readyAt?.latest)
    considerEnd(entry.recoatBy)
    for (const window of entry.windows ?? []) {
      consider(window.opens.latest)
      considerEnd(window.closes)
    }
  }
  return first

  /** A window is told as closing for its last day, and may still be used in its last millisecond. */
  function considerEnd(closes: Instant | undefined) {
    if (closes === undefined) return
    consider(addMinutes(closes, -minutesPerDay))
    consider((closes + 1) as Instant)
  }
}
