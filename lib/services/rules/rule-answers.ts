import 'server-only'
import { ruleIds } from '#core/finish/finish-rule'
import { type RuleAnswer, ruleAnswerKinds } from '#core/finish/rule-answer'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { present, toDate, toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import type { FindingPlace, NewRuleAnswer } from '#services/rules/schema'

/** The columns from which {@link toRuleAnswers} makes answers. */
export const ruleAnswerColumns = {
  rule: true,
  surfaceId: true,
  stepId: true,
  answer: true,
  note: true,
  answeredAt: true,
} as const

/** An answer as its row has it. */
type RuleAnswerRow = {
  readonly rule: string
  readonly surfaceId: string
  readonly stepId: string
  readonly answer: string
  readonly note: string | null
  readonly answeredAt: Date
}

/** The answers that rows hold; one to a rule that is no more is left out. */
export function toRuleAnswers(
  rows: readonly RuleAnswerRow[],
): readonly RuleAnswer[] {
  return rows.flatMap((row) => {
    const rule = ruleIds.find((one) => one === row.rule)
    const answer = ruleAnswerKinds.find((one) => one === row.answer)
    if (rule === undefined || answer === undefined) return []
    return [
      {
        rule,
        surfaceId: row.surfaceId,
        stepId: row.stepId,
        answer,
        ...present({ note: row.note }),
        answeredAt: toInstant(row.answeredAt),
      },
    ]
  })
}

/** What was answered to the findings of a job, the first answer first; empty for a job that there is not. */
export async function readAnswers(
  jobId: string,
): Promise<readonly RuleAnswer[]> {
  const db = await database()
  return toRuleAnswers(
    await db.ruleAnswer.findMany({
      where: { jobId },
      orderBy: [{ answeredAt: 'asc' }, { rule: 'asc' }],
      select: ruleAnswerColumns,
    }),
  )
}

/** Keeps an answer to a finding; a new one takes the place of the one before. */
export async function answerRule(
  jobId: string,
  told: NewRuleAnswer,
  now: Instant,
): Promise<Result<undefined>> {
  const { rule, surface: surfaceId, step: stepId } = told
  const db = await database()
  return db.$transaction(async (transaction) => {
    const on = await transaction.stepSurface.findFirst({
      where: { stepId, surfaceId, step: { jobId } },
      select: { stepId: true },
    })
    if (on === null) return noFinding
    const place = { jobId, rule, surfaceId, stepId }
    const columns = {
      answer: told.answer,
      note: told.note === undefined || told.note === '' ? null : told.note,
      answeredAt: toDate(now),
    }
    await transaction.ruleAnswer.upsert({
      where: { jobId_rule_surfaceId_stepId: place },
      create: { ...place, ...columns },
      update: columns,
      select: { rule: true },
    })
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

/** Takes an answer back, so that its finding stands open again. */
export async function removeAnswer(
  jobId: string,
  { rule, surface: surfaceId, step: stepId }: FindingPlace,
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const { count } = await transaction.ruleAnswer.deleteMany({
      where: { jobId, rule, surfaceId, stepId },
    })
    if (count === 0) return noFinding
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

const noFinding = refused({
  kind: 'not-found',
  detail:
    'There is no such finding in this job: its step or surface may have been changed. Look at the timeline again.',
} as const)
