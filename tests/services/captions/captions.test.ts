import { beforeEach, describe, expect, test } from 'vitest'
import { changeKey } from '#core/captions/chapter-changes'
import type { StepKind } from '#core/journal/vocabulary'
import { instant } from '#core/units'
import {
  keepCaptions,
  readVideoChapters,
  removeCaptions,
  setChapterMarks,
  setChapters,
  settleQuestion,
  takeChapterChange,
  unsetChapters,
} from '#services/captions/captions'
import { database } from '#services/database/open-database'
import { readJournal } from '#services/journal/read-journal'
import { removeStep } from '#services/steps/steps'
import { type TestJob, makeJob, makeStep } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const noon = instant(Date.parse('2026-10-22T12:00:00Z'))
let job: TestJob
let sand = ''
let prime = ''
beforeEach(async () => {
  job = await makeJob()
  sand = await makeStepAt('sand', '2026-10-22T09:00:00Z')
  prime = await makeStepAt('prime', '2026-10-22T10:00:00Z')
})

async function makeStepAt(kind: StepKind, at: string): Promise<string> {
  const id = await makeStep(job.id, kind, [job.surfaceIds[0] ?? ''])
  const db = await database()
  await db.step.update({ where: { id }, data: { startedAt: new Date(at) } })
  return id
}

const bytes = (text: string) => new TextEncoder().encode(text)
const captions = `WEBVTT

00:00.000 --> 00:08.000
Hello, this is our old sideboard and it has seen better days.

00:30.000 --> 00:36.000
Now I'm sanding the body with 150 grit on the orbital sander.

01:00.000 --> 01:06.000
Next, I'm applying the primer with a small roller.

01:30.000 --> 01:40.000
And there you have it, the finished piece. Thanks for watching.

01:50.000 --> 01:58.000
Bye.
`

async function chapters() {
  const journal = await readJournal(job.id)
  if (journal === undefined) throw new Error('no job')
  return readVideoChapters(journal)
}

describe('captions', () => {
  test('give chapters and questions, and stay with the job', async () => {
    const kept = await keepCaptions(job.id, bytes(captions), noon)
    expect(kept.ok && kept.value).toEqual(await chapters())
    const read = await chapters()
    expect(
      read.chapters.map(({ seconds, stepId }) => [seconds, stepId]),
    ).toEqual([
      [0, undefined],
      [30, sand],
      [60, prime],
      [90, undefined],
    ])
    expect(read.isSet).toBe(false)
    expect(read.questions).toMatchObject([
      { fact: 'grit', stepId: sand, values: [150] },
    ])
    const [asked] = read.questions
    expect(asked?.words).toContain('with 150 grit')
    expect(asked?.seconds).toBeGreaterThanOrEqual(30)
    expect(asked?.seconds).toBeLessThan(36)
    expect(read.cues.map(({ seconds }) => seconds)).toEqual([
      0, 30, 60, 90, 110,
    ])
  })

  test('of no use are refused, and nothing is kept', async () => {
    const kept = await keepCaptions(job.id, bytes('Dear buyer'), noon)
    expect(kept).toMatchObject({ ok: false, refusal: { kind: 'unsupported' } })
    expect((await chapters()).cues).toEqual([])
  })

  test('for a job that there is not are refused', async () => {
    expect(await keepCaptions('none', bytes(captions), noon)).toMatchObject({
      ok: false,
      refusal: { kind: 'not-found' },
    })
  })

  test('leave what the owner set and settled, and say what they would change', async () => {
    await keepCaptions(job.id, bytes(captions), noon)
    await settleQuestion(job.id, { fact: 'grit', step: sand })
    const own = [
      { seconds: 0, title: 'Hello', confidence: 1 },
      { seconds: 20, title: 'My sanding', stepId: sand, confidence: 1 },
      { seconds: 70, title: 'Grey', confidence: 1 },
    ]
    expect(await setChapters(job.id, own, noon)).toMatchObject({ ok: true })
    await keepCaptions(job.id, bytes(captions), noon)
    expect(await chapters()).toMatchObject({ isSet: true, chapters: own })
    await keepCaptions(job.id, bytes(captions.replace('00:30', '00:34')), noon)
    const read = await chapters()
    expect(read).toMatchObject({ isSet: true, chapters: own, questions: [] })
    expect(read.changes.map(changeKey)).toContain(`moved ${sand}`)

    expect(
      await takeChapterChange(job.id, `moved ${sand}`, noon),
    ).toMatchObject({ ok: true })
    expect((await chapters()).chapters[1]).toEqual({
      seconds: 34,
      title: 'My sanding',
      stepId: sand,
      confidence: 1,
    })
    expect(
      await takeChapterChange(job.id, `moved ${sand}`, noon),
    ).toMatchObject({ ok: false, refusal: { kind: 'conflict' } })
  })

  test('go, and their chapters with them', async () => {
    await keepCaptions(job.id, bytes(captions), noon)
    await removeCaptions(job.id)
    expect(await chapters()).toEqual({
      chapters: [],
      isSet: false,
      changes: [],
      questions: [],
      cues: [],
    })
  })
})

describe('chapters that the owner sets', () => {
  test('must be sound', async () => {
    const set = await setChapters(
      job.id,
      [0, 5, 70].map((seconds) => ({ seconds, title: 'x', confidence: 1 })),
      noon,
    )
    expect(!set.ok && set.refusal.detail).toContain('lasts 5 s')
  })

  test('may come from typed marks alone, and know their steps', async () => {
    const set = await setChapterMarks(
      job.id,
      '0:00 Hello\n0:40 Sanding\n1:20 - Primer on the body',
      noon,
    )
    expect(set).toMatchObject({ ok: true })
    expect((await chapters()).chapters).toEqual([
      { seconds: 0, title: 'Hello', confidence: 1 },
      { seconds: 40, title: 'Sanding', stepId: sand, confidence: 1 },
      {
        seconds: 80,
        title: 'Primer on the body',
        stepId: prime,
        confidence: 1,
      },
    ])
    await unsetChapters(job.id)
    expect((await chapters()).chapters).toEqual([])
  })

  test('outlive their steps', async () => {
    await setChapterMarks(job.id, '0:00 Hello\n0:40 Sanding\n1:20 Primer', noon)
    await removeStep(job.id, sand, noon)
    expect((await chapters()).chapters[1]).toEqual({
      seconds: 40,
      title: 'Sanding',
      confidence: 1,
    })
  })
})

test('a question that was settled is asked no more', async () => {
  await keepCaptions(job.id, bytes(captions), noon)
  await settleQuestion(job.id, { fact: 'grit', step: sand })
  expect((await chapters()).questions).toEqual([])
})
