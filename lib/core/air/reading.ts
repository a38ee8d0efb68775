import type { Instant } from '#core/units'

/** The air in the workshop at one moment: °C, and relative humidity in percent (above 0, up to 100). */
export type AirReading = {
  readonly at: Instant
  readonly celsius: number
  readonly humidity: number
}
