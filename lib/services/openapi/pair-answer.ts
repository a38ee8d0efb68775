import { z } from 'zod'
import { mapModels } from '#core/geometry/fit-map'
import {
  type LightMatch,
  lightDoubtSentence,
  lightWords,
} from '#core/pairs/match-light'
import { doubtSentence } from '#core/pairs/pair-state'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'
import { handPoints } from '#services/pairs/schema'
import type { KeptPair } from '#services/pairs/pairs'

/** A before and an after photo, and how the one lies over the other, as the interface gives it. */
export const pairAnswer = z
  .object({
    id: z.string(),
    before: z.string(),
    after: z.string(),
    view: z.string().nullable(),
    accepted: z.boolean().meta({
      description:
        'Whether there is an alignment; without one the photos are shown as they are.',
    }),
    confidence: z
      .number()
      .min(0)
      .max(1)
      .meta({ description: 'Below 0.5 an alignment is refused.' }),
    homography: z.array(z.number()).length(9).nullable().meta({
      description:
        '3 x 3, row after row, from upright pixels of the whole after to those of the before; counted from the upper left corner.',
    }),
    model: z.enum(mapModels).nullable(),
    how: z.enum(['waiting', 'computed', 'by-hand', 'none']),
    reason: z
      .string()
      .nullable()
      .meta({ description: 'Why it was refused; null otherwise.' }),
    points: handPoints
      .nullable()
      .meta({ description: 'What it is laid by, where that is by hand.' }),
    confirmedAt: instantAnswer
      .nullable()
      .meta({ description: 'When the owner said that they belong together.' }),
  })
  .meta({ id: 'Pair' })

/** The pairs of a job. */
export const pairListAnswer = z
  .object({
    pairs: z.array(pairAnswer),
    finding: z.boolean().meta({
      description: 'Whether more is being found or aligned; ask again then.',
    }),
  })
  .meta({ id: 'PairList' })

/** A pair in the form of {@link pairAnswer}. */
export function pairToAnswer(pair: KeptPair): z.input<typeof pairAnswer> {
  const { state } = pair
  const aligned = 'homography' in state
  return {
    id: pair.id,
    before: pair.before,
    after: pair.after,
    view: pair.view ?? null,
    accepted: aligned,
    confidence: state.how === 'waiting' ? 0 : state.confidence,
    homography: aligned ? [...state.homography] : null,
    model: aligned ? state.model : null,
    how: state.how,
    reason: state.how === 'none' ? doubtSentence(state.doubt) : null,
    points:
      pair.handPoints === undefined
        ? null
        : {
            before: [...pair.handPoints.before],
            after: [...pair.handPoints.after],
          },
    confirmedAt: instantToAnswer(pair.confirmedAt ?? null),
  }
}

/** How the light of a pair's after would be brought to that of its before. */
export const lightAnswer = z
  .object({
    accepted: z.boolean(),
    gains: z.array(z.number()).length(3).nullable().meta({
      description:
        'What red, green and blue are multiplied by, in linear light; each from 1/1.5 to 1.5. Null where it is refused.',
    }),
    unchanged: z.number().min(0).max(1).meta({
      description:
        'The part of the surroundings that only the light changed; below 0.2 it is refused.',
    }),
    said: z
      .string()
      .meta({ description: 'What is done, or why nothing is, in words.' }),
  })
  .meta({ id: 'PairLight' })

/** The light of a pair in the form of {@link lightAnswer}. */
export function lightToAnswer(light: LightMatch): z.input<typeof lightAnswer> {
  return {
    accepted: light.accepted,
    gains: light.accepted ? [...light.gains] : null,
    unchanged: light.unchanged,
    said: light.accepted
      ? lightWords(light.gains)
      : lightDoubtSentence(light.doubt),
  }
}
