import type { RuleId } from '#core/finish/finish-rule'
import type { Instant } from '#core/units'

/** What an owner may answer to a finding: it was done and nobody took a photo, or it was left out on purpose. */
export const ruleAnswerKinds = ['done', 'meant'] as const
export type RuleAnswerKind = (typeof ruleAnswerKinds)[number]

/** What the owner answered to a finding. It stays with its step and surface, and goes with them. */
export type RuleAnswer = {
  readonly rule: RuleId
  readonly surfaceId: string
  readonly stepId: string
  readonly answer: RuleAnswerKind
  readonly note?: string
  readonly answeredAt: Instant
}
