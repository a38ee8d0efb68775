import { z } from 'zod'
import type { RenumberedCoat } from '#core/journal/renumber-coats'
import type { KeptChange } from '#services/changes/changes'
import { changeKinds, workshopChangeKinds } from '#services/changes/schema'
import type { WorkshopChange } from '#services/changes/workshop-changes'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'

const whenChanged = {
  changedAt: instantAnswer,
  undoneAt: instantAnswer.nullable(),
}

function whenChangedToAnswer(change: KeptChange | WorkshopChange) {
  return {
    changedAt: instantToAnswer(change.changedAt),
    undoneAt: instantToAnswer(change.undoneAt),
  }
}

/** What was changed in a job, as the interface gives it. */
export const changeListAnswer = z
  .object({
    changes: z.array(
      z.object({
        id: z.string(),
        kind: z.enum(changeKinds),
        ...whenChanged,
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
      ...whenChangedToAnswer(change),
      steps: [...change.stepIds],
      photos: [...change.photoIds],
    })),
  }
}

/** What was changed on the shelf and of the cameras' clocks, as the interface gives it. */
export const workshopChangesAnswer = z
  .object({
    changes: z.array(
      z.object({
        id: z.string(),
        kind: z.enum(workshopChangeKinds),
        ...whenChanged,
        products: z.array(z.string()),
        cameras: z.array(z.string()),
      }),
    ),
  })
  .meta({ id: 'WorkshopChangeList' })

/** Changes in the form of {@link workshopChangesAnswer}. */
export function workshopChangesToAnswer(
  changes: readonly WorkshopChange[],
): z.input<typeof workshopChangesAnswer> {
  return {
    changes: changes.map((change) => ({
      id: change.id,
      kind: change.kind,
      ...whenChangedToAnswer(change),
      products: [...change.productIds],
      cameras: [...change.cameraIds],
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
