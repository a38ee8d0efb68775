import { z } from 'zod'
import { spokenFacts } from '#core/captions/ask-from-captions'

const day = 86_400

/** Chapters as the owner set them. */
export const chapterList = z
  .array(
    z.object({
      seconds: z
        .int('Give the start of a chapter in whole seconds.')
        .min(0, 'A chapter begins at 0:00 or later.')
        .max(day, 'A chapter begins within a day.'),
      title: z.string().trim(),
      stepId: z.string().optional(),
      confidence: z.number().min(0).max(1),
    }),
  )
  .max(200, 'Keep to 200 chapters.')

/** A question that is to be asked no more. */
export const settledQuestion = z.object({
  fact: z.enum(spokenFacts),
  step: z.string().min(1),
})
export type SettledQuestion = z.output<typeof settledQuestion>

/** The questions of a job that are to be asked no more, as they are kept. */
export const settledList = z.array(z.string())
