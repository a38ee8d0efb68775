import { z } from 'zod'

/** Two photos of a job that the owner says belong together. */
export const newPair = z
  .object({
    before: z.string().meta({ description: 'The photo taken before.' }),
    after: z.string().meta({ description: 'The photo taken after.' }),
  })
  .refine(({ before, after }) => before !== after, {
    error: 'Choose two photos: one cannot be its own before.',
    path: ['after'],
  })
  .meta({ id: 'NewPair' })

export type NewPair = z.output<typeof newPair>
