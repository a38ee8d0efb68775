import { z } from 'zod'
import { instantText } from '#services/instant-text'

/** One reading of the workshop's air. */
export const newAirReading = z.object({
  at: instantText,
  celsius: z
    .number('Give the temperature in °C as a number.')
    .min(-40, 'Colder than -40 °C is not a workshop.')
    .max(60, 'Warmer than 60 °C is not a workshop. Is it in °F?'),
  humidity: z
    .number('Give the relative humidity in percent as a number.')
    .gt(0, 'Relative humidity is more than 0 %.')
    .max(100, 'Relative humidity is 100 % at most.'),
})

export type NewAirReading = z.output<typeof newAirReading>

/** What the interface takes as air: one reading, or many. */
export const newAir = z.union(
  [
    newAirReading,
    z
      .array(newAirReading)
      .min(1)
      .max(600_000, 'Send at most 600,000 readings at once.'),
  ],
  'Send one reading as {"at", "celsius", "humidity"}, or an array of them.',
)
