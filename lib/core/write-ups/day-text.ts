import type { WallClock } from '#core/time/zone'

/** A day as facts have it: `2026-03-02`. */
export function dayText({ year, month, day }: WallClock): string {
  const two = (number: number) => String(number).padStart(2, '0')
  return `${year}-${two(month)}-${two(day)}`
}
