import { z } from 'zod'
import { instantText } from '#services/instant-text'
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

/** What is mended of one photo; what is absent stays as it is. */
export const photoMending = photoPlacing
  .omit({ photos: true })
  .extend({
    /** When it was taken, as the owner knows it; null goes by the photo's own evidence again. */
    taken: z
      .object({
        at: instantText,
        uncertaintySeconds: z
          .number('Give how far it may be off in seconds.')
          .min(0, 'It cannot be off by less than nothing.')
          .max(366 * 86_400, 'That is more than a year.')
          .optional(),
      })
      .nullable()
      .optional(),
  })
  .refine((mending) => Object.keys(mending).length > 0, {
    error: 'Name at least one thing to mend.',
  })
