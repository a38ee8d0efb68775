import { z } from 'zod'
import { stepKinds } from '#core/journal/vocabulary'

const id = z.string().min(1).max(100)

/** What photos show, as the interface takes it. */
const shown = z
  .union(
    [
      z.strictObject({ as: z.enum(['before', 'after']) }),
      z.strictObject({
        as: z.literal('step'),
        step: id.meta({ description: 'A step that is there.' }),
      }),
      z.strictObject({
        as: z.literal('step'),
        kind: z.enum(stepKinds, `Choose one of: ${stepKinds.join(', ')}.`),
        surfaces: z
          .array(id)
          .min(1, 'Choose at least one surface.')
          .max(400)
          .meta({ description: 'A new step on these surfaces.' }),
        coat: z
          .int()
          .min(1, 'Coats are counted from 1.')
          .max(99, 'That is more coats than any finish has.')
          .optional(),
        product: id
          .optional()
          .meta({ description: 'What it was done with, from the shelf.' }),
      }),
    ],
    'Say before, after, a step of the job, or the kind and the surfaces of a new one.',
  )
  .meta({ id: 'Place' })

/** Photos to place, each group with what it shows, in order of time. */
export const newPlacing = z.object({
  choices: z
    .array(
      z.object({
        photos: z.array(id).min(1, 'Choose at least one photo.').max(1000),
        place: shown,
      }),
      'Choose at least one photo.',
    )
    .min(1, 'Choose at least one photo.')
    .max(1000, 'Place at most 1,000 bursts at once.'),
})

export type NewPlacing = z.output<typeof newPlacing>
export type NewPlace = NewPlacing['choices'][number]['place']

/** What was placed and how it was before: kept, so that it can be taken back. */
export const placingRecord = z.object({
  photos: z.array(
    z.object({
      id: z.string(),
      /** What it was placed as: its step now, or its role. */
      step: z.string().nullable(),
      role: z.string(),
      /** What it showed before. */
      surfaces: z.array(z.string()),
    }),
  ),
  /** The steps that were added for them. */
  steps: z.array(z.string()),
  /** What those were said to be done with then, by their ids. */
  products: z.record(z.string(), z.string()).default({}),
})

export type PlacingRecord = z.output<typeof placingRecord>
