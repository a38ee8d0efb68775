import { wallClock } from '#core/time/zone'
import type { Instant } from '#core/units'

/**
 * A moment on the wall clock of a zone, as a browser's date and time field wants it: `2026-10-24T10:10`.
 *
 * @param seconds writes them too
 */
export function localText(at: Instant, zone: string, seconds = false): string {
  const clock = wallClock(at, zone)
  const two = (value: number) => String(value).padStart(2, '0')
  const minute = `${clock.year}-${two(clock.month)}-${two(clock.day)}T${two(clock.hour)}:${two(clock.minute)}`
  return seconds ? `${minute}:${two(clock.second)}` : minute
}
