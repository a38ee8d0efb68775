import { type WallClock, startOfDay, wallClock } from '#core/time/zone'
import { type Instant, minutesBetween, minutesPerDay } from '#core/units'

const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const
const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const

/** How moments are written: the workshop's zone, and whether its clock runs to 12 or to 24. */
export type MomentStyle = {
  readonly zone: string
  readonly units: 'metric' | 'us'
}

/** The time of day: `16:05`, or `4:05 pm` with US units. */
export function timeOfDay(at: Instant, style: MomentStyle): string {
  const { hour, minute } = wallClock(at, style.zone)
  const two = String(minute).padStart(2, '0')
  if (style.units === 'metric') return `${String(hour).padStart(2, '0')}:${two}`
  return `${hour % 12 === 0 ? 12 : hour % 12}:${two} ${hour < 12 ? 'am' : 'pm'}`
}

/** The day with its year: `24 October 2026`, or `October 24, 2026` with US units. */
export function dayInFull(at: Instant, style: MomentStyle): string {
  return calendarDay(wallClock(at, style.zone), style.units)
}

/** The day of a wall clock, in the same words. */
export function calendarDay(
  { year, month, day }: Pick<WallClock, 'year' | 'month' | 'day'>,
  units: MomentStyle['units'],
): string {
  const name = months[month - 1] ?? ''
  return units === 'us' ? `${name} ${day}, ${year}` : `${day} ${name} ${year}`
}

/**
 * The day as a person at the bench says it: `today`, `tomorrow`, `yesterday`, else `Sat 24 Oct`, with the year where it
 * is not this one.
 */
export function dayWords(
  at: Instant,
  now: Instant,
  style: MomentStyle,
): string {
  const today = startOfDay(now, style.zone)
  const day = startOfDay(at, style.zone)
  // A day may have 23 or 25 hours; rounding takes up the odd one.
  const days = Math.round(minutesBetween(today, day) / minutesPerDay)
  if (days === 0) return 'today'
  if (days === 1) return 'tomorrow'
  if (days === -1) return 'yesterday'
  const clock = wallClock(at, style.zone)
  const weekday = weekdays[clock.weekday - 1] ?? ''
  const month = (months[clock.month - 1] ?? '').slice(0, 3)
  const date =
    style.units === 'us' ? `${month} ${clock.day}` : `${clock.day} ${month}`
  const year =
    clock.year === wallClock(now, style.zone).year ? '' : ` ${clock.year}`
  return `${weekday} ${date}${year}`
}

/** A moment in words: `today 16:05`, `Sat 24 Oct 10:10`. */
export function momentWords(
  at: Instant,
  now: Instant,
  style: MomentStyle,
): string {
  return `${dayWords(at, now, style)} ${timeOfDay(at, style)}`
}

/** A span in words: one moment when its ends read the same, else both ends, the day said once when they share it. */
export function spanWords(
  earliest: Instant,
  latest: Instant,
  now: Instant,
  style: MomentStyle,
): string {
  const from = momentWords(earliest, now, style)
  if (from === momentWords(latest, now, style)) return from
  const sameDay =
    startOfDay(earliest, style.zone) === startOfDay(latest, style.zone)
  const to = sameDay
    ? timeOfDay(latest, style)
    : momentWords(latest, now, style)
  return `${from} to ${to}`
}
