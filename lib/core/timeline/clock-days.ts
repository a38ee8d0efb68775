import { type MomentStyle, dayWords } from '#core/time/moments'
import { startOfDay, wallClock } from '#core/time/zone'
import type { ClockDay } from '#core/timeline/clock-ticks'
import {
  type Instant,
  addMinutes,
  instant,
  millisecondsPerMinute,
  minutesBetween,
  minutesPerDay,
} from '#core/units'

/** Longer than any day, in minutes: from the beginning of one it leads into the next. */
const intoNextDay = minutesPerDay + 2 * 60

/**
 * The days of the workshop's clock that some of these stretches of time lie in, in order and each once.
 *
 * @param stretches in order of time
 * @throws RangeError when the zone is unknown
 */
export function clockDays(
  stretches: readonly { readonly from: Instant; readonly to: Instant }[],
  now: Instant,
  style: MomentStyle,
): readonly ClockDay[] {
  const days: ClockDay[] = []
  for (const stretch of stretches) {
    const known = days.at(-1)?.to
    let from = startOfDay(stretch.from, style.zone)
    if (known !== undefined && known > from) from = known
    while (from <= stretch.to) {
      const to = startOfDay(addMinutes(from, intoNextDay), style.zone)
      const change = changeIn(from, to, style.zone)
      days.push({
        from,
        to,
        words: dayWords(from, now, style),
        ...(change !== undefined && { change }),
      })
      from = to
    }
  }
  return days
}

function changeIn(
  from: Instant,
  to: Instant,
  zone: string,
): ClockDay['change'] {
  const byMinutes = minutesPerDay - minutesBetween(from, to)
  if (byMinutes === 0) return undefined
  const before = wallClock(from, zone).offset
  // Clocks change at a whole minute: halve until it is found.
  let low = 0
  let high = (to - from) / millisecondsPerMinute
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (wallClock(addMinutes(from, middle), zone).offset === before)
      low = middle
    else high = middle
  }
  return { at: instant(from + high * millisecondsPerMinute), byMinutes }
}
