import { z } from 'zod'

/** A problem as RFC 9457 has it, and the fields that were not understood. */
export const problemAnswer = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string().meta({
      description: 'What is wrong and what to do about it, for the user.',
    }),
    errors: z
      .array(z.object({ path: z.string(), message: z.string() }))
      .optional()
      .meta({ description: 'One entry for each field that does not fit.' }),
  })
  .meta({ id: 'Problem', description: 'Problem details, RFC 9457.' })
