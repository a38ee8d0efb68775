import { beforeEach, describe, expect, test } from 'vitest'
import { judgeFinish } from '#core/finish/judge-finish'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import { readJournal } from '#services/journal/read-journal'
import {
  answerRule,
  readAnswers,
  removeAnswer,
} from '#services/rules/rule-answers'
import { handOverJob } from '#services/jobs/hand-over-job'
import { newRuleAnswer } from '#services/rules/schema'
import { removeStep } from '#services/steps/steps'
import { type TestJob, makeJob, makeStep } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const noon = instant(Date.parse('2026-10-22T12:00:00Z'))
let job: TestJob
let surface = ''
let step = ''
beforeEach(async () => {
  job = await makeJob()
  surface = job.surfaceIds[0] ?? ''
  step = await makeStep(job.id, 'scuff', [surface])
})

const told = (more: object = {}) =>
  newRuleAnswer.parse({
    rule: 'clean-before-abrasion',
    surface,
    step,
    answer: 'done',
    ...more,
  })

async function revision(): Promise<number | undefined> {
  const db = await database()
  const row = await db.job.findUnique({ where: { id: job.id } })
  return row?.revision
}

describe('an answer to a finding', () => {
  test('is kept, and comes with the journal', async () => {
    expect(
      await answerRule(job.id, told({ note: 'Sugar soap.' }), noon),
    ).toMatchObject({ ok: true })
    const kept = {
      rule: 'clean-before-abrasion',
      surfaceId: surface,
      stepId: step,
      answer: 'done',
      note: 'Sugar soap.',
      answeredAt: noon,
    }
    expect(await readAnswers(job.id)).toEqual([kept])
    expect((await readJournal(job.id))?.answers).toEqual([kept])
  })

  test('takes the place of the one before', async () => {
    await answerRule(job.id, told({ note: 'Sugar soap.' }), noon)
    await answerRule(job.id, told({ answer: 'meant' }), noon)
    expect(await readAnswers(job.id)).toEqual([
      {
        rule: 'clean-before-abrasion',
        surfaceId: surface,
        stepId: step,
        answer: 'meant',
        answeredAt: noon,
      },
    ])
  })

  test('makes what was computed from the job stale', async () => {
    const before = await revision()
    await answerRule(job.id, told(), noon)
    expect(await revision()).toBe((before ?? 0) + 1)
    await removeAnswer(job.id, told())
    expect(await revision()).toBe((before ?? 0) + 2)
  })

  test('is taken back, and only once', async () => {
    await answerRule(job.id, told(), noon)
    expect(await removeAnswer(job.id, told())).toMatchObject({ ok: true })
    expect(await readAnswers(job.id)).toEqual([])
    expect(await removeAnswer(job.id, told())).toMatchObject({ ok: false })
  })

  test.each([
    ['a step of another job', 'step'],
    ['a surface that the step was not on', 'surface'],
  ])('is refused for %s', async (_, what) => {
    const other = await makeJob('Another')
    const wrong =
      what === 'step'
        ? {
            step: await makeStep(other.id, 'scuff', [
              other.surfaceIds[0] ?? '',
            ]),
          }
        : { surface: job.surfaceIds[1] }
    const before = await revision()
    expect(await answerRule(job.id, told(wrong), noon)).toMatchObject({
      ok: false,
      refusal: { kind: 'not-found' },
    })
    expect(await readAnswers(job.id)).toEqual([])
    expect(await revision()).toBe(before)
  })

  test('goes with its step', async () => {
    await answerRule(job.id, told(), noon)
    await removeStep(job.id, step, noon)
    expect(await readAnswers(job.id)).toEqual([])
  })

  test('to a rule that there is not is no answer', () => {
    expect(
      newRuleAnswer.safeParse({ rule: 'x', surface, step, answer: 'done' })
        .success,
    ).toBe(false)
  })

  test('shows with the finding that it answers', async () => {
    const open = judgeFinish((await readJournal(job.id)) ?? never())
    expect(
      open.find((one) => one.rule === 'clean-before-abrasion')?.answer,
    ).toBeUndefined()
    await answerRule(job.id, told(), noon)
    const answered = judgeFinish((await readJournal(job.id)) ?? never())
    expect(answered).toHaveLength(open.length)
    expect(
      answered.find((one) => one.rule === 'clean-before-abrasion')?.answer
        ?.answer,
    ).toBe('done')
  })
})

describe('the day that a job goes', () => {
  test('comes with the journal, and is taken back', async () => {
    expect(
      await handOverJob(job.id, { soldAt: noon, deliveredAt: noon }),
    ).toMatchObject({ ok: true })
    expect((await readJournal(job.id))?.job).toMatchObject({
      soldAt: noon,
      deliveredAt: noon,
    })
    await handOverJob(job.id, { soldAt: noon, deliveredAt: null })
    expect((await readJournal(job.id))?.job.deliveredAt).toBeUndefined()
  })

  test('is refused for a job that there is not', async () => {
    expect(
      await handOverJob('none', { soldAt: noon, deliveredAt: null }),
    ).toMatchObject({ ok: false, refusal: { kind: 'not-found' } })
  })
})

function never(): never {
  throw new Error('the job is gone')
}
