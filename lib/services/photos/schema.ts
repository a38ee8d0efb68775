import { z } from 'zod'
import { photoRoles } from '#core/journal/vocabulary'

/** What chosen photos show. What is absent stays as it is. */
export const photoPlacing = z.object({
  photos: z
    .array(z.string())
    .min(1, 'Choose at least one photo.')
    .max(1000, 'Choose at most 1,000 photos at once.'),
  role: z.enum(photoRoles).optional(),
  view: z
    .string()
    .trim()
    .max(60, 'Keep the view to 60 characters.')
    .transform((text) => (text === '' ? null : text))
    .optional(),
  /** The flaw that they are there to show; empty: none. */
  flaw: z
    .string()
    .trim()
    .max(200, 'Keep the flaw to 200 characters.')
    .transform((text) => (text === '' ? null : text))
    .optional(),
  surfaces: z.array(z.string()).max(400).optional(),
  /** An existing step to add them to; null takes them off theirs. */
  step: z.string().nullable().optional(),
})

export type PhotoPlacing = z.output<typeof photoPlacing>
