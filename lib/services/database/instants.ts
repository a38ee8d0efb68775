import { type Instant, instant } from '#core/units'

/** The instant that a database date holds. */
export function toInstant(date: Date): Instant {
  return instant(date.getTime())
}

/** The database date for an instant. */
export function toDate(at: Instant): Date {
  return new Date(at)
}

/** An object without the keys whose value is null or undefined: rows have null where the core leaves a key out. */
export function present<T extends Readonly<Record<string, unknown>>>(
  values: T,
): { [Key in keyof T]?: NonNullable<T[Key]> } {
  const kept: { [Key in keyof T]?: NonNullable<T[Key]> } = {}
  for (const key of Object.keys(values) as (keyof T)[]) {
    const value = values[key]
    if (value !== null && value !== undefined) kept[key] = value
  }
  return kept
}
