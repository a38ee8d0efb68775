import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { readLastChange, undoChange } from '#services/changes/changes'
import { keptState } from '#services/changes/schema'
import { database } from '#services/database/open-database'
import { finishJob, handOverJob } from '#services/jobs/hand-over-job'
import { changeJobFacts } from '#services/jobs/jobs'
import { jobFacts } from '#services/jobs/schema'
import { readJournal } from '#services/journal/read-journal'
import { correctHours, readBooks } from '#services/money/books'
import { stepHours } from '#services/money/schema'
import { placePhotos } from '#services/photos/place-photos'
import { photoPlacing } from '#services/photos/schema'
import { confirmPlacing } from '#services/placing/confirm-placing'
import { newPlacing } from '#services/placing/schema'
import { undoPlacing } from '#services/placing/undo-placing'
import { answerRule } from '#services/rules/rule-answers'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import {
  addStep,
  addToNote,
  changeStep,
  removeStep,
} from '#services/steps/steps'
import { makeJob } from '../../support/make-job'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const begun = Date.parse('2026-10-22T08:00:00Z')
let passed = 0
/** Each change comes a minute after the one before it. */
const next = () => instant(begun + (passed += 60_000))

/** A primed body with a photo, ready to be changed. */
async function primed() {
  const job = await makeJob('Sideboard', ['body', 'top'])
  const [body = '', top = ''] = job.surfaceIds
  const photo = await keepPhotoRow(job.id, { surfaceIds: [body] })
  const added = await addStep(
    job.id,
    newStep.parse({
      kind: 'prime',
      surfaces: [body],
      photos: [photo],
      grit: 180,
      weighed: { beforeGrams: 812.5, afterGrams: 640 },
    }),
    next(),
  )
  if (!added.ok) throw new Error(added.refusal.detail)
  return { job: job.id, body, top, photo, step: added.value.id }
}

async function undoLast(job: string) {
  const last = await readLastChange(job, next())
  if (last === undefined) throw new Error('there is nothing to undo')
  return undoChange(job, last.id, next())
}

describe('a change to a step', () => {
  test('is undone in all that it said, on its surfaces and photos', async () => {
    const { job, top, step } = await primed()
    const before = await readJournal(job)
    const changed = await changeStep(
      job,
      step,
      newStep.parse({
        kind: 'coat',
        surfaces: [top],
        photos: [],
        note: 'Wrong.',
        startedAt: '2026-10-22T07:00:00Z',
      }),
      next(),
    )
    expect(changed.ok).toBe(true)
    expect(await readJournal(job)).not.toEqual(before)
    expect(await undoLast(job)).toEqual({ ok: true, value: undefined })
    expect(await readJournal(job)).toEqual(before)
  })

  test('is undone one after the other, the last first', async () => {
    const { job, body, step } = await primed()
    const before = await readJournal(job)
    for (const note of ['One.', 'Two.'])
      await changeStep(
        job,
        step,
        newStep.parse({ kind: 'prime', surfaces: [body], note }),
        next(),
      )
    await undoLast(job)
    expect((await readJournal(job))?.steps[0]?.note).toBe('One.')
    await undoLast(job)
    expect(await readJournal(job)).toEqual(before)
  })

  test('is not undone over what came later, nor twice', async () => {
    const { job, body, step } = await primed()
    const change = (note: string) =>
      changeStep(
        job,
        step,
        newStep.parse({ kind: 'prime', surfaces: [body], note }),
        next(),
      )
    await change('One.')
    const first = await readLastChange(job, next())
    await change('Two.')
    const kept = await readJournal(job)
    expect(await undoChange(job, first?.id ?? '', next())).toMatchObject({
      ok: false,
      refusal: { kind: 'conflict' },
    })
    expect(await readJournal(job)).toEqual(kept)
    const second = await readLastChange(job, next())
    expect(await undoChange(job, second?.id ?? '', next())).toMatchObject({
      ok: true,
    })
    expect(await undoChange(job, second?.id ?? '', next())).toMatchObject({
      ok: false,
      refusal: { detail: 'It has been undone already.' },
    })
  })

  test('that changed nothing is not kept', async () => {
    const { job, body, step } = await primed()
    const last = await readLastChange(job, next())
    await changeStep(
      job,
      step,
      newStep.parse({
        kind: 'prime',
        surfaces: [body],
        grit: 180,
        weighed: { beforeGrams: 812.5, afterGrams: 640 },
      }),
      next(),
    )
    expect(await readLastChange(job, next())).toEqual(last)
  })

  test('that was refused is not kept', async () => {
    const { job, step } = await primed()
    const last = await readLastChange(job, next())
    const refused = await changeStep(
      job,
      step,
      newStep.parse({ kind: 'prime', surfaces: ['of another job'] }),
      next(),
    )
    expect(refused.ok).toBe(false)
    expect(await readLastChange(job, next())).toEqual(last)
  })
})

test('a step that was removed comes back with its photos, its hours and what was answered about it', async () => {
  const { job, body, step } = await primed()
  await answerRule(
    job,
    { rule: 'clean-before-abrasion', surface: body, step, answer: 'done' },
    next(),
  )
  await correctHours(job, [
    stepHours.parse({
      step,
      workMinutes: 40,
      cleanUpMinutes: 5,
      otherPieces: 2,
    }),
  ])
  const db = await database()
  // As it is kept: a time in another form would be sorted wrongly.
  const row = async () =>
    await db.$queryRaw<object[]>`SELECT * FROM "Step" WHERE "id" = ${step}`
  const before = await readJournal(job)
  const books = await readBooks([job])
  const columns = await row()
  expect(before?.answers).toHaveLength(1)
  expect(books.get(job)?.hours).toHaveLength(1)
  expect(columns).toMatchObject([
    { weighedBeforeGrams: 812.5, weighedAfterGrams: 640 },
  ])
  await removeStep(job, step, next())
  expect((await readJournal(job))?.steps).toEqual([])
  expect((await readBooks([job])).get(job)?.hours).toEqual([])
  expect(await undoLast(job)).toMatchObject({ ok: true })
  expect(await readJournal(job)).toEqual(before)
  expect(await readBooks([job])).toEqual(books)
  expect(await row()).toEqual(columns)
})

test('every column of a step is kept, and everything that goes with it', async () => {
  const db = await database()
  const columnsOf = async (table: string) => {
    const rows = await db.$queryRawUnsafe<{ name: string }[]>(
      `SELECT name FROM pragma_table_info('${table}')`,
    )
    return rows.map((row) => row.name)
  }
  const step = keptState.shape.steps.element.shape
  const kept = (fields: object, ...known: readonly string[]) =>
    [...Object.keys(fields), ...known].toSorted()
  const { surfaces, answers, hours, ...columns } = step
  // Whether it is in the bin follows from its surfaces.
  expect((await columnsOf('Step')).toSorted()).toEqual(
    kept(columns, 'jobId', 'removedAt'),
  )
  expect((await columnsOf('StepSurface')).toSorted()).toEqual(
    kept(surfaces.element.shape, 'stepId'),
  )
  expect((await columnsOf('RuleAnswer')).toSorted()).toEqual(
    kept(answers.element.shape, 'jobId', 'stepId'),
  )
  expect((await columnsOf('StepHours')).toSorted()).toEqual(
    kept(hours.unwrap().shape, 'stepId'),
  )
  const owned = await db.$queryRawUnsafe<{ name: string }[]>(
    `SELECT m.name FROM sqlite_master m, pragma_foreign_key_list(m.name) f
     WHERE m.type = 'table' AND f."table" = 'Step' ORDER BY m.name`,
  )
  expect(owned.map((row) => row.name)).toEqual([
    'Photo',
    'RuleAnswer',
    'StepHours',
    'StepSurface',
  ])
})

test('a step that was added is taken away, and its photo is as it was', async () => {
  const { job, photo, body } = await primed()
  expect(await undoLast(job)).toMatchObject({ ok: true })
  const journal = await readJournal(job)
  expect(journal?.steps).toEqual([])
  expect(journal?.photos).toMatchObject([{ id: photo, surfaceIds: [body] }])
  expect(journal?.photos[0]?.stepId).toBeUndefined()
})

test('a step that was added is not taken away once it has got another photo', async () => {
  const { job, body, step } = await primed()
  const added = await readLastChange(job, next())
  expect(added).toMatchObject({
    kind: 'added',
    step: { kind: 'prime', surfaceIds: [body] },
  })
  const snapped = await keepPhotoRow(job, { stepId: step, surfaceIds: [body] })
  expect(await readLastChange(job, next())).toBeUndefined()
  const kept = await readJournal(job)
  expect(await undoChange(job, added?.id ?? '', next())).toMatchObject({
    ok: false,
    refusal: { kind: 'conflict' },
  })
  expect(await readJournal(job)).toEqual(kept)
  expect(kept?.steps[0]?.photoIds).toContain(snapped)
})

describe('beside photos that were placed in one go', () => {
  async function placed(job: string, surface: string) {
    const photo = await keepPhotoRow(job)
    const placing = newPlacing.parse({
      choices: [
        {
          photos: [photo],
          place: { as: 'step', kind: 'sand', surfaces: [surface] },
        },
      ],
    })
    const kept = await confirmPlacing(job, placing, next())
    if (!kept.ok) throw new Error(kept.refusal.detail)
    const [step = ''] = kept.value.steps
    return { placing: kept.value.id, step, photo }
  }

  test('the change before them is offered again once they are taken back', async () => {
    const { job, body, step } = await primed()
    const empty = await readJournal(job)
    await removeStep(job, step, next())
    const removal = await readLastChange(job, next())
    const { placing } = await placed(job, body)
    expect(await readLastChange(job, next())).toBeUndefined()
    expect(await undoPlacing(job, placing, next())).toMatchObject({ ok: true })
    expect(await readLastChange(job, next())).toEqual(removal)
    expect(await undoLast(job)).toMatchObject({ ok: true })
    expect((await readJournal(job))?.steps).toEqual(empty?.steps)
  })

  test('a step of theirs that is changed can be put back as it was', async () => {
    const { job, body } = await primed()
    const { step } = await placed(job, body)
    const before = await readJournal(job)
    await changeStep(
      job,
      step,
      newStep.parse({ kind: 'sand', surfaces: [body], grit: 220 }),
      next(),
    )
    expect(await undoLast(job)).toMatchObject({ ok: true })
    expect(await readJournal(job)).toEqual(before)
    expect(await readLastChange(job, next())).toBeUndefined()
  })

  test('a photo whose step went with them is not sent back to it', async () => {
    const { job, body, top } = await primed()
    const { placing, step, photo } = await placed(job, body)
    await addStep(
      job,
      newStep.parse({ kind: 'clean', surfaces: [top], photos: [photo] }),
      next(),
    )
    const last = await readLastChange(job, next())
    expect(last).toMatchObject({ kind: 'added', step: { kind: 'clean' } })
    expect(await undoPlacing(job, placing, next())).toMatchObject({ ok: true })
    const kept = await readJournal(job)
    expect(kept?.steps.map((one) => one.id)).not.toContain(step)
    expect(await readLastChange(job, next())).toBeUndefined()
    expect(await undoChange(job, last?.id ?? '', next())).toMatchObject({
      ok: false,
      refusal: {
        detail: 'It cannot be undone: a step that its photos had is gone.',
      },
    })
    expect(await readJournal(job)).toEqual(kept)
  })
})

test('what was said of a photo since is not overwritten, nor offered to be', async () => {
  const { job, photo, step } = await primed()
  await removeStep(job, step, next())
  const removal = await readLastChange(job, next())
  await placePhotos(job, photoPlacing.parse({ photos: [photo], role: 'after' }))
  expect((await readLastChange(job, next()))?.kind).toBe('photos-placed')
  expect(await undoChange(job, removal?.id ?? '', next())).toMatchObject({
    ok: false,
    refusal: { kind: 'conflict' },
  })
})

test('a photo that was placed on another step since stands in the way', async () => {
  const { job, photo, top, step } = await primed()
  await removeStep(job, step, next())
  const removal = await readLastChange(job, next())
  await addStep(
    job,
    newStep.parse({ kind: 'sand', surfaces: [top], photos: [photo] }),
    next(),
  )
  expect(await undoChange(job, removal?.id ?? '', next())).toMatchObject({
    ok: false,
    refusal: { kind: 'conflict' },
  })
})

test('a product that is gone stands in the way, and is named', async () => {
  const { job, body, step } = await primed()
  const product = await addProduct(
    newProduct.parse({
      name: 'bonding primer, white',
      category: 'primer',
      chemistry: 'waterborne-acrylic',
      label: {},
    }),
    next(),
  )
  const naming = (productId: string | undefined) =>
    newStep.parse({
      kind: 'prime',
      surfaces: [body],
      ...(productId !== undefined && { product: productId }),
    })
  await changeStep(job, step, naming(product.id), next())
  await changeStep(job, step, naming(undefined), next())
  const last = await readLastChange(job, next())
  const db = await database()
  await db.$transaction((transaction) =>
    transaction.product.delete({
      where: { id: product.id },
      select: { id: true },
    }),
  )
  expect(await readLastChange(job, next())).toBeUndefined()
  expect(await undoChange(job, last?.id ?? '', next())).toMatchObject({
    ok: false,
    refusal: { detail: 'It cannot be undone: a product that it had is gone.' },
  })
})

test('a change of another job is not found', async () => {
  const { job } = await primed()
  const other = await primed()
  const last = await readLastChange(job, next())
  expect(await undoChange(other.job, last?.id ?? '', next())).toMatchObject({
    ok: false,
    refusal: { kind: 'not-found' },
  })
  const db = await database()
  expect(await db.change.count({ where: { undoneAt: null } })).toBeGreaterThan(
    0,
  )
})

describe('a note that is added to a step', () => {
  const noteOf = async (job: string) => (await readJournal(job))?.steps[0]?.note

  test('stands below what was there, and is undone alone', async () => {
    const { job, step } = await primed()
    await addToNote(job, step, ' Went on thin. ', next())
    await addToNote(job, step, 'Back edge twice.', next())
    expect(await noteOf(job)).toBe('Went on thin.\nBack edge twice.')
    expect(await undoLast(job)).toMatchObject({ ok: true })
    expect(await noteOf(job)).toBe('Went on thin.')
  })

  test('is refused where it would be too long or is for no step, and leaves what was there', async () => {
    const { job, step } = await primed()
    await addToNote(job, step, 'x'.repeat(1999), next())
    expect(await addToNote(job, step, 'too much', next())).toMatchObject({
      refusal: { kind: 'invalid' },
    })
    expect(await addToNote(job, 'nobody', 'x', next())).toMatchObject({
      refusal: { kind: 'not-found' },
    })
    expect((await noteOf(job))?.length).toBe(1999)
  })
})

test('what is told of a job, when a photo was taken and what it shows are put back', async () => {
  const { job, photo } = await primed()
  const was = await readJournal(job)
  const piece = was?.pieces[0]
  await changeJobFacts(
    job,
    jobFacts.parse({
      title: 'Other',
      askingPriceMinor: 45_000,
      collection: '',
      pieces: [
        {
          id: piece?.id,
          name: 'dresser',
          kind: 'dresser',
          dimensions: { width: 900, unit: 'mm' },
          material: 'pine',
          flaws: 'a scratch',
        },
      ],
    }),
    next(),
  )
  expect((await readJournal(job))?.job.title).toBe('Other')
  expect(await undoLast(job)).toMatchObject({ ok: true })
  await placePhotos(
    job,
    photoPlacing.parse({
      photos: [photo],
      role: 'after',
      view: 'front',
      step: null,
    }),
    next(),
  )
  expect((await readJournal(job))?.photos[0]?.view).toBe('front')
  expect(await undoLast(job)).toMatchObject({ ok: true })
  expect(await readJournal(job)).toEqual(was)
})

describe('when a job was finished, sold and delivered', () => {
  test('is undone step by step', async () => {
    const job = await makeJob()
    const day = (text: string) => instant(Date.parse(`${text}T12:00:00Z`))
    const now = day('2026-11-25')
    await finishJob(job.id, day('2026-10-28'), day('2026-11-24'))
    const sold = { soldAt: day('2026-11-02'), deliveredAt: null }
    expect((await handOverJob(job.id, sold, now)).ok).toBe(true)
    expect(await readLastChange(job.id, now)).toMatchObject({
      kind: 'handed-over',
    })
    const standing = async () => (await readJournal(job.id))?.job
    const undo = async () => {
      const last = await readLastChange(job.id, now)
      return last === undefined ? last : undoChange(job.id, last.id, now)
    }
    expect(await undo()).toMatchObject({ ok: true })
    expect(await standing()).toMatchObject({ finishedAt: day('2026-10-28') })
    expect((await standing())?.soldAt).toBeUndefined()
    expect(await undo()).toMatchObject({ ok: true })
    expect((await standing())?.finishedAt).toBeUndefined()
    expect(await undo()).toBeUndefined()
  })

  test('is no change where it says what it said before', async () => {
    const job = await makeJob()
    await handOverJob(job.id, { soldAt: null, deliveredAt: null }, next())
    expect(await readLastChange(job.id, next())).toBeUndefined()
  })
})
