import { z } from 'zod'

/** What was done to the steps of a job. */
export const changeKinds = ['added', 'changed', 'removed'] as const
export type ChangeKind = (typeof changeKinds)[number]

/** Steps and photos as they stood at one moment: columns as they are kept, instants in ISO 8601. */
export const keptState = z.object({
  steps: z.array(
    z.object({
      id: z.string(),
      kind: z.string(),
      productId: z.string().nullable(),
      method: z.string().nullable(),
      thinningPercent: z.number().nullable(),
      grit: z.number().nullable(),
      amount: z.number().nullable(),
      amountUnit: z.string().nullable(),
      weighedBeforeGrams: z.number().nullable(),
      weighedAfterGrams: z.number().nullable(),
      startedAt: z.iso.datetime().nullable(),
      finishedAt: z.iso.datetime().nullable(),
      note: z.string().nullable(),
      createdAt: z.iso.datetime(),
      surfaces: z.array(
        z.object({ surfaceId: z.string(), coat: z.number().nullable() }),
      ),
      answers: z.array(
        z.object({
          rule: z.string(),
          surfaceId: z.string(),
          answer: z.string(),
          note: z.string().nullable(),
          answeredAt: z.iso.datetime(),
        }),
      ),
      hours: z
        .object({
          workMinutes: z.number().nullable(),
          setUpMinutes: z.number().nullable(),
          cleanUpMinutes: z.number().nullable(),
          otherPieces: z.number(),
        })
        .nullable(),
    }),
  ),
  photos: z.array(
    z.object({
      id: z.string(),
      stepId: z.string().nullable(),
      role: z.string(),
      surfaces: z.array(z.string()),
    }),
  ),
})

export type KeptState = z.output<typeof keptState>
