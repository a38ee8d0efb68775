import { z } from 'zod'
import { ruleIds } from '#core/finish/finish-rule'
import { ruleAnswerKinds } from '#core/finish/rule-answer'

/** Which finding is meant: a rule, on one surface, at one step. */
export const findingPlace = z.object({
  rule: z.enum(ruleIds, 'There is no such rule.'),
  surface: z.string().min(1, 'Say which surface is meant.'),
  step: z.string().min(1, 'Say which step is meant.'),
})

export type FindingPlace = z.output<typeof findingPlace>

/** An answer to a finding of the finish rules. */
export const newRuleAnswer = findingPlace.extend({
  answer: z.enum(
    ruleAnswerKinds,
    `Choose one of: ${ruleAnswerKinds.join(', ')}.`,
  ),
  note: z
    .string()
    .trim()
    .max(500, 'Keep the note to 500 characters.')
    .optional(),
})

export type NewRuleAnswer = z.output<typeof newRuleAnswer>
