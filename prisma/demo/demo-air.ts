import {
  type Instant,
  addMinutes,
  instant,
  minutesPerDay,
  minutesPerHour,
} from '#core/units'
import type { NewAirReading } from '#services/air/schema'

const readingEveryMinutes = 30

/**
 * Readings of an invented, heated workshop, every half hour: about 20 to 22 °C and 48 to 55 % by day, a little cooler
 * and damper at night. The same days give the same readings.
 *
 * @param from midnight UTC of the first day
 * @param days whole days
 */
export function demoAir(from: Instant, days: number): readonly NewAirReading[] {
  const count = (days * minutesPerDay) / readingEveryMinutes
  return Array.from({ length: count }, (_, index) => {
    const minute = index * readingEveryMinutes
    const hour = (minute / minutesPerHour) % 24
    // Warmest at three in the afternoon; the days differ a little.
    const warmth = Math.cos(((hour - 15) / 24) * 2 * Math.PI)
    const day = Math.sin((minute / minutesPerDay) * 1.7)
    const celsius = 20.2 + 1.4 * warmth + 0.3 * day
    const humidity = 52.5 - 3 * warmth + 1.2 * day
    return {
      at: addMinutes(instant(from), minute),
      celsius: Math.round(celsius * 10) / 10,
      humidity: Math.round(humidity * 10) / 10,
    }
  })
}
