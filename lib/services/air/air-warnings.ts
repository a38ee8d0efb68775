import type { Instant } from '#core/units'
import type { NewAirReading } from '#services/air/schema'

/** What the owner should know about readings that were sent: moments that came twice, or are still to come. */
export function airWarnings(
  readings: readonly NewAirReading[],
  now: Instant,
): readonly string[] {
  const again =
    readings.length - new Set(readings.map((reading) => reading.at)).size
  const ahead = readings.filter((reading) => reading.at > now).length
  return [
    ...(again === 0
      ? []
      : [
          `${again} readings were for a moment that came twice; the last counts.`,
        ]),
    ...(ahead === 0
      ? []
      : [
          `${ahead} readings lie in the future. Check the clock of the logger.`,
        ]),
  ]
}
