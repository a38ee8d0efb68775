declare const unit: unique symbol
type Quantity<Unit extends string> = number & { readonly [unit]: Unit }

/** Milliseconds since 1970-01-01T00:00:00Z: a whole number. */
export type Instant = Quantity<'epoch-ms'>
/** A length of time in minutes: finite, fractions allowed. */
export type Minutes = Quantity<'min'>

export const millisecondsPerSecond = 1000
export const millisecondsPerMinute = 60_000
export const minutesPerHour = 60
export const minutesPerDay = 1440

/**
 * An instant from milliseconds since the epoch; a fraction is cut off.
 *
 * @throws RangeError when not finite
 */
export function instant(epochMilliseconds: number): Instant {
  if (!Number.isFinite(epochMilliseconds)) {
    throw new RangeError(
      `instant: expected finite milliseconds, got ${epochMilliseconds}`,
    )
  }
  return Math.trunc(epochMilliseconds) as Instant
}

/**
 * A length of time.
 *
 * @throws RangeError when not finite
 */
export function minutes(value: number): Minutes {
  if (!Number.isFinite(value))
    throw new RangeError(`minutes: expected a finite number, got ${value}`)
  return value as Minutes
}

/** The time from one instant to another; negative when `end` comes first. */
export function minutesBetween(start: Instant, end: Instant): Minutes {
  return minutes((end - start) / millisecondsPerMinute)
}

/** The instant so many minutes later. */
export function addMinutes(start: Instant, length: number): Instant {
  return instant(start + length * millisecondsPerMinute)
}
