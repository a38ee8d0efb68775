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

const days = (least: number) =>
  z.coerce
    .number('Give a whole number of days.')
    .int('Give a whole number of days.')
    .min(least, `Give ${least} or more.`)
    .max(3650, 'Give at most 3650: ten years.')

/** How long the bin is to keep things; without `keepDays` until their owner brings them back. */
export const newBinRules = z.object({
  keepDays: days(1).optional(),
  originalDays: days(0),
})

export type NewBinRules = z.output<typeof newBinRules>
