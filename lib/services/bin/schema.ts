import { z } from 'zod'

/** What can be put in the bin. */
export const binnedKinds = ['job', 'piece', 'surface', 'photo'] as const
export type BinnedKind = (typeof binnedKinds)[number]

/** What is to come back from the bin. */
export const binPlace = z.object({
  kind: z.enum(binnedKinds, `Choose one of: ${binnedKinds.join(', ')}.`),
  job: z.string().min(1).meta({ description: 'The job that it belongs to.' }),
  id: z
    .string()
    .min(1)
    .meta({ description: 'Its own id; of a job, the same as `job`.' }),
})
