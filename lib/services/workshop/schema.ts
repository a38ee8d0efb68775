import { z } from 'zod'
import { isTimeZone } from '#core/time/zone'

/** The settings of the workshop, as a form or a file may change them. */
export const workshopSettings = z.object({
  name: z
    .string()
    .trim()
    .min(1, 'Give the workshop a name.')
    .max(80, 'Keep the name to 80 characters.'),
  zone: z
    .string()
    .trim()
    .refine(isTimeZone, 'Give a time zone by its name, such as Europe/London.'),
  currency: z
    .string()
    .trim()
    .toUpperCase()
    .regex(
      /^[A-Z]{3}$/,
      'Give the three letters of the currency, such as GBP.',
    ),
  units: z.enum(['metric', 'us'], 'Choose metric or US units.'),
})
