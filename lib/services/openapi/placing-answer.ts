import { z } from 'zod'
import { stepKinds } from '#core/journal/vocabulary'
import type { Place } from '#core/placing/place'
import type { KeptPlacing } from '#services/placing/confirm-placing'
import type { ShownBurst } from '#services/placing/read-placing'

const place = z.object({
  as: z.enum(['before', 'after', 'step']),
  step: z.string().optional().meta({ description: 'A step that is there.' }),
  kind: z.enum(stepKinds).optional(),
  surfaces: z.array(z.string()).optional(),
  coat: z.int().optional(),
})

/** Where photos may belong, as the interface gives it. */
export const placingAnswer = z
  .object({
    bursts: z.array(
      z.object({
        photos: z.array(z.string()),
        folds: z.array(
          z.object({
            front: z.string().meta({
              description: 'The sharpest of those that look the same.',
            }),
            behind: z.array(z.string()),
          }),
        ),
        proposals: z.array(
          z.object({
            place: place.meta({
              description:
                'A step that is there by its id; a new one by its kind, surfaces and coat.',
            }),
            confidence: z.number().min(0).max(1).meta({
              description:
                'The share of all stories followed that agree, by a model of common practice.',
            }),
          }),
        ),
      }),
    ),
  })
  .meta({ id: 'PlacingProposals' })

/** Photos that were placed in one go, as the interface gives it. */
export const keptPlacingAnswer = z
  .object({
    id: z.string().meta({ description: 'Takes it back.' }),
    photoCount: z.int(),
    steps: z.array(z.string()).meta({ description: 'The steps added.' }),
  })
  .meta({ id: 'Placing' })

/** Proposals in the form of {@link placingAnswer}. */
export function placingToAnswer(
  bursts: readonly ShownBurst[],
): z.input<typeof placingAnswer> {
  return {
    bursts: bursts.map(({ photoIds, folds, proposals }) => ({
      photos: [...photoIds],
      folds: folds.map(({ front, behind }) => ({ front, behind: [...behind] })),
      proposals: proposals.map((one) => ({
        place: placeToAnswer(one.place),
        confidence: Number(one.confidence.toFixed(4)),
      })),
    })),
  }
}

/** A place in the form that is taken back in: a step that is there by its id alone. */
function placeToAnswer(at: Place): z.input<typeof place> {
  if (at.as !== 'step') return { as: at.as }
  if (at.stepId !== undefined) return { as: 'step', step: at.stepId }
  return {
    as: 'step',
    kind: at.kind,
    surfaces: [...at.surfaceIds],
    ...(at.coat === undefined ? {} : { coat: at.coat }),
  }
}

/** A placing in the form of {@link keptPlacingAnswer}. */
export function keptPlacingToAnswer(
  kept: KeptPlacing,
): z.input<typeof keptPlacingAnswer> {
  return { ...kept, steps: [...kept.steps] }
}
