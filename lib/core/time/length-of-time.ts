import { minutesPerDay, minutesPerHour } from '#core/units'

/** Up to here a length is said in minutes, as labels do. */
const longestInMinutes = 90
/** From here on a length is said in days; labels say 24 h and 48 h. */
const shortestInDays = 3 * minutesPerDay

/**
 * A length of time in words: `38 min`, `1 h 40 min`, `10 h 30 min`, `48 h`, `3 days`, `3 days 5 h`.
 *
 * @param minutes finite; below zero gets a minus sign
 * @param rounding to whole minutes, from three days on to whole hours. Round a wait `down` and what it is
 *   measured against `up`, so that the two never look alike when the wait was short.
 */
export function lengthOfTime(
  minutes: number,
  rounding: 'down' | 'nearest' | 'up' = 'nearest',
): string {
  if (minutes < 0) {
    const words = lengthOfTime(-minutes, opposite[rounding])
    return words === '0 min' ? words : `-${words}`
  }
  const whole = rounded(minutes, rounding)
  if (whole <= longestInMinutes) return `${whole} min`
  if (whole < shortestInDays) {
    return joined(
      `${Math.floor(whole / minutesPerHour)} h`,
      whole % minutesPerHour,
      'min',
    )
  }
  const hours = rounded(minutes / minutesPerHour, rounding)
  return joined(`${Math.floor(hours / 24)} days`, hours % 24, 'h')
}

const opposite = { down: 'up', nearest: 'nearest', up: 'down' } as const

function rounded(value: number, rounding: 'down' | 'nearest' | 'up'): number {
  // A sum of many readings may miss a whole minute by a rounding error: that is no minute more or less.
  const nearest = Math.round(value)
  if (rounding === 'nearest' || Math.abs(value - nearest) < 1e-6) return nearest
  return rounding === 'down' ? Math.floor(value) : Math.ceil(value)
}

function joined(first: string, rest: number, unit: string): string {
  return rest === 0 ? first : `${first} ${rest} ${unit}`
}
