import { type Instant, addMinutes, minutesPerDay } from '#core/units'

/** 1900-01-01T00:00:00Z: an old print may be part of a piece's story, no work here is older. Common practice, no source. */
export const earliestMoment = -2_208_988_800_000

/**
 * Why a typed time cannot be when something was done, in words for the one who typed it; undefined when it can. A day of
 * grace is left for a clock that is behind.
 */
export function whyNotThen(at: Instant, now: Instant): string | undefined {
  if (at < earliestMoment) return 'That is before 1900. Look at the year.'
  return at > addMinutes(now, minutesPerDay)
    ? 'That is in the future, by this machine’s clock. Look at the date.'
    : undefined
}
