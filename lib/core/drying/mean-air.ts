import type { Air } from '#core/air/air'
import { type Accumulation, totalAt } from '#core/air/accumulation'
import { stretchOf } from '#core/air/air-course'
import type { DryingClock } from '#core/drying/drying-clock'
import { type Instant, minutesBetween } from '#core/units'

/** The air over some time, and what share of that time (0 to 1) readings tell of. */
export type MeanAir = {
  readonly share: number
  /** Absent when nothing is known. */
  readonly air?: Air
}

/** The means of temperature and humidity from `start` to `end`, as far as readings tell. */
export function meanAir(
  clock: DryingClock,
  start: Instant,
  end: Instant,
): MeanAir {
  const first = stretchOf(clock.course, start)
  const last = stretchOf(clock.course, end)
  const sums = clock.means()
  const known = sumOf(sums.known, start, first, end, last)
  const length = minutesBetween(start, end)
  if (known <= 0 || length <= 0) return { share: 0 }
  return {
    share: Math.min(1, known / length),
    air: {
      celsius: sumOf(sums.temperature, start, first, end, last) / known,
      humidity: sumOf(sums.humidity, start, first, end, last) / known,
    },
  }
}

/** The sum between two moments, each with the stretch of the course that holds it. */
function sumOf(
  of: Accumulation,
  start: Instant,
  first: number,
  end: Instant,
  last: number,
): number {
  return totalAt(of, end, last) - totalAt(of, start, first)
}
