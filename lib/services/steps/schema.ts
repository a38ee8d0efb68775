import { z } from 'zod'
import { longestNote, methods, stepKinds } from '#core/journal/vocabulary'
import { amountUnits } from '#core/shelf/product'
import { workTime } from '#services/instant-text'
import { whenRead } from '#services/when-read'

const amountValue = z
  .number('Give the amount as a number.')
  .gt(0, 'An amount is more than nothing.')
  .max(100_000, 'That is more than a workshop holds.')

/** How much went on: litres when it is a bare number. */
const amount = z.union(
  [
    amountValue.transform((value) => ({ value, unit: 'l' as const })),
    z.object({
      value: amountValue,
      unit: z.enum(amountUnits, `Choose one of: ${amountUnits.join(', ')}.`),
    }),
  ],
  'Give the amount as a number, in litres or with its unit.',
)

const canGrams = z
  .number('Give both weights of the can in grams, before and after.')
  .gt(0, 'A can weighs more than nothing.')
  .max(100_000, 'That is heavier than any can.')

/** A new step, as the interface takes it. */
export const newStep = z
  .object({
    kind: z.enum(stepKinds, `Choose one of: ${stepKinds.join(', ')}.`),
    surfaces: z
      .array(z.string(), 'Choose at least one surface.')
      .min(1, 'Choose at least one surface.')
      .max(400),
    product: z.string().min(1).optional(),
    coat: z
      .int('Give the coat as a whole number.')
      .min(1, 'Coats are counted from 1.')
      .max(99, 'That is more coats than any finish has.')
      .optional(),
    method: z.enum(methods, `Choose one of: ${methods.join(', ')}.`).optional(),
    thinningPercent: z
      .number('Give the thinning in percent as a number.')
      .min(0, 'Thinning cannot be less than nothing.')
      .max(200, 'That is more thinner than product.')
      .optional(),
    grit: z
      .int('Give the grit as a whole number, such as 180.')
      .min(8, 'The coarsest grit is P8.')
      .max(5000, 'The finest grit is P5000.')
      .optional(),
    amount: amount.optional(),
    weighed: z
      .object({ beforeGrams: canGrams, afterGrams: canGrams })
      .refine((can) => can.afterGrams <= can.beforeGrams, {
        path: ['afterGrams'],
        error: 'A can weighs no more after than before. Check both weights.',
      })
      .meta({
        description: 'The can with what was in it, before and after the step.',
      })
      .optional(),
    startedAt: workTime.optional(),
    finishedAt: workTime.optional(),
    photos: z.array(z.string()).max(1000).optional(),
    note: z
      .string()
      .trim()
      .max(longestNote, 'Keep the note to 2,000 characters.')
      .optional(),
  })
  .refine(
    (step) =>
      step.startedAt === undefined ||
      step.finishedAt === undefined ||
      step.startedAt <= step.finishedAt,
    {
      path: ['finishedAt'],
      error: 'A step ends after it starts.',
      when: whenRead('startedAt', 'finishedAt'),
    },
  )

export type NewStep = z.output<typeof newStep>

const surfaceIds = z
  .array(z.string(), 'Choose at least one surface.')
  .min(1, 'Choose at least one surface.')
  .max(400)

/** Where coats are to be numbered anew in the order of the work. */
export const coatsToCount = z.object({
  kind: newStep.shape.kind,
  surfaces: surfaceIds.transform((ids) => [...new Set(ids)]),
  first: newStep.shape.coat.meta({
    description:
      'The number of the first coat; else the lowest that is there, so that a finish that began before its journal keeps its count.',
  }),
})

/** A line for the note of a step, as the interface takes it. */
export const noteLine = z.object({
  words: z
    .string('Say what to write down.')
    .trim()
    .min(1, 'Say what to write down.')
    .max(longestNote, 'Keep the note to 2,000 characters.'),
})

/** To which side a step changes places with its neighbour on a surface. */
export const stepMove = z.object({
  surface: z.string().min(1),
  toward: z.enum(['earlier', 'later'], 'Choose earlier or later.'),
})
