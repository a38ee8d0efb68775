import { z } from 'zod'
import type { RenumberedCoat } from '#core/journal/renumber-coats'
import type { KeptChange } from '#services/changes/changes'
import { changeKinds } from '#services/changes/schema'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'

/** What was changed in a job, as the interface gives it. */
export const changeListAnswer = z
  .object({
    changes: z.array(
      z.object({
        id: z.string(),
        kind: z.enum(changeKinds),
        changedAt: instantAnswer,
        undoneAt: instantAnswer.nullable(),
        steps: z.array(z.string()),
        photos: z.array(z.string()),
      }),
    ),
  })
  .meta({ id: 'ChangeList' })

/** Changes in the form of {@link changeListAnswer}. */
export function changeListToAnswer(
  changes: readonly KeptChange[],
): z.input<typeof changeListAnswer> {
  return {
    changes: changes.map((change) => ({
      id: change.id,
      kind: change.kind,
      changedAt: instantToAnswer(change.changedAt),
      undoneAt: instantToAnswer(change.undoneAt),
      steps: [...change.stepIds],
      photos: [...change.photoIds],
    })),
  }
}

/** The coats that got another number, as the interface gives them. */
export const renumberedAnswer = z
  .object({
    renumbered: z.array(
      z.object({
        step: z.string(),
        surface: z.string(),
        was: z.int(),
        coat: z.int(),
      }),
    ),
  })
  .meta({ id: 'Renumbered' })

/** Coats in the form of {@link renumberedAnswer}. */
export function renumberedToAnswer(
  coats: readonly RenumberedCoat[],
): z.input<typeof renumberedAnswer> {
  return {
    renumbered: coats.map(({ stepId, surfaceId, was, coat }) => ({
      step: stepId,
      surface: surfaceId,
      was,
      coat,
    })),
  }
}
