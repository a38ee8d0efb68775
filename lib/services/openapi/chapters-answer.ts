import { z } from 'zod'
import { spokenFacts } from '#core/captions/ask-from-captions'
import type { VideoChapters } from '#services/captions/captions'

/** What captions give, as the interface answers. */
export const chaptersAnswer = z
  .object({
    chapters: z
      .array(
        z.object({
          seconds: z.int().min(0).meta({
            description: 'Its start, from the start of the video.',
          }),
          title: z.string(),
          step: z.string().optional().meta({
            description: 'The step whose telling it begins with.',
          }),
          confidence: z.number().min(0).max(1).meta({
            description:
              'How likely the step begins within ten seconds of it; 1 where the owner set it.',
          }),
        }),
      )
      .meta({
        description:
          'The first at 0, ascending, each at least ten seconds long; none where there would be fewer than three.',
      }),
    questions: z
      .array(
        z.object({
          fact: z.enum(spokenFacts),
          step: z.string(),
          question: z.string(),
          values: z.array(z.number()).meta({
            description:
              'What was said: P grades, parts to 100 parts of product, minutes, or coats.',
          }),
          words: z.string(),
          seconds: z.int().min(0),
        }),
      )
      .meta({
        description:
          'Facts that the journal lacks and the captions tell; none is written down by itself.',
      }),
  })
  .meta({ id: 'Chapters' })

/** Chapters and questions in the form of {@link chaptersAnswer}. */
export function chaptersToAnswer({
  chapters,
  questions,
}: VideoChapters): z.input<typeof chaptersAnswer> {
  return {
    chapters: chapters.map(({ seconds, title, stepId, confidence }) => ({
      seconds,
      title,
      ...(stepId !== undefined && { step: stepId }),
      confidence: Math.round(confidence * 1000) / 1000,
    })),
    questions: questions.map(({ stepId, values, ...rest }) => ({
      ...rest,
      values: [...values],
      step: stepId,
    })),
  }
}
