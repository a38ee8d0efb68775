import { z } from 'zod'

/** What became of readings that were sent, as the interface gives it. */
export const airAnswer = z
  .object({
    kept: z.int().meta({ description: 'How many moments have a reading now.' }),
    warnings: z.array(z.string()),
  })
  .meta({ id: 'KeptAir' })
