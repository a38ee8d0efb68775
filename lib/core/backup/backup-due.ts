import { startOfDay } from '#core/time/zone'
import { type Instant, instant } from '#core/units'

const hour = 3_600_000
/** Two in the morning: nobody is sanding then. */
const nightlyHour = 2 * hour
/** A drive that is not plugged in now may be in an hour. */
const restAfterFailure = hour

/**
 * Whether the nightly backup is to be made now: once after each night's two o'clock, or as soon after it as the machine
 * runs. One that failed is tried again after an hour.
 *
 * A last backup from the future says that the clock was set back since: then nobody knows how old it is, and one is due.
 *
 * @param last when it was last tried and last done, by the clock of then
 */
export function isBackupDue(
  now: Instant,
  zone: string,
  last: { readonly triedAt?: Instant; readonly doneAt?: Instant },
): boolean {
  const { triedAt, doneAt } = last
  const rests =
    triedAt !== undefined && triedAt <= now && now - triedAt < restAfterFailure
  if (doneAt === undefined || doneAt > now) return !rests
  return doneAt < lastNight(now, zone) && !rests
}

function lastNight(now: Instant, zone: string): Instant {
  const today = startOfDay(now, zone)
  if (now >= today + nightlyHour) return instant(today + nightlyHour)
  const yesterday = startOfDay(instant(today - hour), zone)
  return instant(yesterday + nightlyHour)
}
