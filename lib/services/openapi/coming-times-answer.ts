import type { z } from 'zod'
import type { Forecast } from '#core/timeline/timeline'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'

/** When a coat is ready, closing and cured, as members of what the interface gives of it: the two ends of each span. */
export const comingTimesAnswer = {
  readyAt: instantAnswer.nullable().meta({
    description:
      'When the next coat may go on for certain: the end of the span that the times and the air leave open.',
  }),
  readyEarliest: instantAnswer.nullable().meta({
    description: 'The beginning of that span.',
  }),
  recoatBy: instantAnswer.nullable().meta({
    description:
      'The beginning of the span that the times leave open: until then it is certainly not too late.',
  }),
  recoatByLatest: instantAnswer
    .nullable()
    .meta({ description: 'The end of that span.' }),
  curedBy: instantAnswer.nullable().meta({
    description:
      'The end of the span that the times leave open: by then it is certainly over.',
  }),
  curedByEarliest: instantAnswer
    .nullable()
    .meta({ description: 'The beginning of that span.' }),
}

/** Those times in the form of {@link comingTimesAnswer}; of a span without room both ends are the same. */
export function comingTimesToAnswer({
  readyAt,
  recoatBy,
  recoatByLatest,
  curedBy,
  curedByEarliest,
}: Pick<
  Forecast,
  'readyAt' | 'recoatBy' | 'recoatByLatest' | 'curedBy' | 'curedByEarliest'
>): {
  readonly [Key in keyof typeof comingTimesAnswer]: z.input<
    (typeof comingTimesAnswer)[Key]
  >
} {
  return {
    readyAt: instantToAnswer(readyAt?.latest),
    readyEarliest: instantToAnswer(readyAt?.earliest),
    recoatBy: instantToAnswer(recoatBy),
    recoatByLatest: instantToAnswer(recoatByLatest ?? recoatBy),
    curedBy: instantToAnswer(curedBy),
    curedByEarliest: instantToAnswer(curedByEarliest ?? curedBy),
  }
}
