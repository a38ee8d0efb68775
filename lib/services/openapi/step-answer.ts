import { z } from 'zod'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'
import type { KeptStep } from '#services/steps/steps'

/** A step as it was kept, as the interface gives it. */
export const stepAnswer = z
  .object({
    id: z.string(),
    kind: z.string(),
    product: z.string().nullable(),
    surfaces: z.array(
      z.object({
        id: z.string(),
        coat: z.int().nullable().meta({
          description: 'Which coat of its kind it is on this surface, from 1.',
        }),
      }),
    ),
    startedAt: instantAnswer
      .nullable()
      .meta({ description: 'As typed; photos give the times otherwise.' }),
    finishedAt: instantAnswer.nullable(),
    photos: z.array(z.string()),
  })
  .meta({ id: 'Step' })

/** A step in the form of {@link stepAnswer}. */
export function stepToAnswer(step: KeptStep): z.input<typeof stepAnswer> {
  return {
    id: step.id,
    kind: step.kind,
    product: step.product,
    surfaces: step.surfaces.map(({ id, coat }) => ({ id, coat })),
    startedAt: instantToAnswer(step.startedAt),
    finishedAt: instantToAnswer(step.finishedAt),
    photos: [...step.photos],
  }
}
