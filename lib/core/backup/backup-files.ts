import {
  type WallClock,
  readLocal,
  startOfDay,
  wallClock,
} from '#core/time/zone'
import { type Instant, instant } from '#core/units'

/** How many backups of a folder stay: the last one of each of so many days, weeks and months that have one. */
export type KeepRules = {
  readonly days: number
  readonly weeks: number
  readonly months: number
}

/** What a backup is called when it is kept as a file, by the moment that it shows; in UTC, so that names sort. */
export function backupFileName(at: Instant): string {
  const { year, month, day, hour, minute, second } = wallClock(at, 'UTC')
  const two = (value: number) => String(value).padStart(2, '0')
  return `coatbook-${year}-${two(month)}-${two(day)}-${two(hour)}${two(minute)}${two(second)}Z.zip`
}

/** The moment in a backup's name; undefined for a file that is called anything else. */
export function momentInName(name: string): Instant | undefined {
  const [, date, hour, minute, second] =
    /^coatbook-(\d{4}-\d{2}-\d{2})-(\d{2})(\d{2})(\d{2})Z\.zip$/.exec(name) ??
    []
  if (date === undefined) return undefined
  try {
    return readLocal(
      `${date}T${hour ?? ''}:${minute ?? ''}:${second ?? ''}`,
      'UTC',
    ).at
  } catch {
    // Digits that are no date: somebody else's file.
    return undefined
  }
}

/**
 * The backups that the rules no longer keep. The newest always stays; so does, and counts for nothing, one from a moment
 * that is still to come, since one of the two clocks was wrong then.
 *
 * Days, weeks (from Monday) and months are those of the zone. Only those that have a backup count, so that a machine that
 * stood still for a year loses nothing by it.
 */
export function surplusBackups(
  backups: readonly Instant[],
  rules: KeepRules,
  zone: string,
  now: Instant,
): readonly Instant[] {
  const past = backups
    .filter((at) => at <= now)
    .toSorted((one, other) => other - one)
  const kept = new Set<Instant>(past.slice(0, 1))
  for (const [count, period] of [
    [rules.days, dayOf],
    [rules.weeks, weekOf],
    [rules.months, monthOf],
  ] as const) {
    const seen = new Set<string>()
    for (const at of past) {
      const name = period(at, zone)
      if (seen.has(name) || seen.size >= count) continue
      seen.add(name)
      kept.add(at)
    }
  }
  return past.filter((at) => !kept.has(at))
}

const dayName = ({ year, month, day }: WallClock) => `${year}-${month}-${day}`

function dayOf(at: Instant, zone: string): string {
  return dayName(wallClock(at, zone))
}

function weekOf(at: Instant, zone: string): string {
  const { weekday } = wallClock(at, zone)
  // From noon, so that a day of 23 or 25 hours does not lead to another date.
  const noon = startOfDay(at, zone) + halfDay
  return dayOf(instant(noon - (weekday - 1) * 2 * halfDay), zone)
}

function monthOf(at: Instant, zone: string): string {
  const { year, month } = wallClock(at, zone)
  return `${year}-${month}`
}

const halfDay = 12 * 3_600_000
