import { z } from 'zod'
import { photoRoles, timeBases } from '#core/journal/vocabulary'

/** What may be sent along with photos. */
export const uploadFields = z.object({
  role: z
    .enum(photoRoles, `Choose one of: ${photoRoles.join(', ')}.`)
    .optional(),
  view: z
    .string()
    .trim()
    .min(1, 'Name the view, such as front.')
    .max(60, 'Keep the name of the view to 60 characters.')
    .optional(),
  step: z.string().min(1, 'Name the step by its id.').max(100).optional(),
  surfaces: z
    .array(z.string().min(1, 'Name the surface by its id.').max(100))
    .max(100)
    .default([]),
})

export type UploadFields = z.output<typeof uploadFields>

const instantOut = z.iso.datetime()

/** The answer when photos were kept, as the interface gives it. */
export const photosKept = z.object({
  photos: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
      mediaType: z.string(),
      width: z.int().meta({ description: 'Upright pixels' }),
      height: z.int().meta({ description: 'Upright pixels' }),
      taken: z.object({
        at: instantOut,
        earliest: instantOut,
        latest: instantOut,
        basis: z.enum(timeBases),
      }),
      duplicateOf: z.string().optional().meta({
        description: 'The photo that these very bytes came as before',
      }),
      warnings: z.array(z.string()).meta({
        description:
          'What to know of it, in sentences: such as that the file is damaged, that it was there already, or that what it was sent for is in the bin, and until when',
      }),
    }),
  ),
  rejected: z.array(z.object({ name: z.string(), reason: z.string() })),
})
