import { Temporal } from 'temporal-polyfill'
import type { Span } from '#core/time/span'
import { type Instant, instant } from '#core/units'

/** Whether the zone is one that the time zone data knows. */
export function isTimeZone(zone: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone)
    return true
  } catch {
    return false
  }
}

/**
 * A wall-clock time read in a zone, as a span of instants.
 *
 * An hour repeated at the end of daylight saving gives both of its instants as the ends; an hour that
 * does not exist is read with the offsets before and after the change, which are the ends likewise.
 *
 * @param local ISO 8601 without offset, such as `2026-10-25T01:30:00.25`
 * @throws RangeError when `local` is no date and time or the zone is unknown
 */
export function readLocal(local: string, zone: string): Span {
  const wall = Temporal.PlainDateTime.from(local)
  const earlier = wall.toZonedDateTime(zone, {
    disambiguation: 'earlier',
  }).epochMilliseconds
  const later = wall.toZonedDateTime(zone, {
    disambiguation: 'later',
  }).epochMilliseconds
  return {
    earliest: instant(Math.min(earlier, later)),
    at: instant(Math.min(earlier, later)),
    latest: instant(Math.max(earlier, later)),
  }
}

/** The parts of an instant on a wall clock in the zone. Months and days from 1; weekday 1 is Monday. */
export function wallClock(at: Instant, zone: string): WallClock {
  const zoned =
    Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone)
  return {
    year: zoned.year,
    month: zoned.month,
    day: zoned.day,
    weekday: zoned.dayOfWeek,
    hour: zoned.hour,
    minute: zoned.minute,
    second: zoned.second,
    offset: zoned.offset,
  }
}

export type WallClock = {
  readonly year: number
  readonly month: number
  readonly day: number
  readonly weekday: number
  readonly hour: number
  readonly minute: number
  readonly second: number
  /** Such as `+01:00`. */
  readonly offset: string
}

/** The instant at which the wall-clock day that holds `at` began in the zone. */
export function startOfDay(at: Instant, zone: string): Instant {
  return instant(
    Temporal.Instant.fromEpochMilliseconds(at)
      .toZonedDateTimeISO(zone)
      .startOfDay().epochMilliseconds,
  )
}
