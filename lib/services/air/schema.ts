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
