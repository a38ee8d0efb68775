import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { readJournal } from '#services/journal/read-journal'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { addStep, changeStep, removeStep } from '#services/steps/steps'
import { makeJob } from '../../support/make-job'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-10-22T08:00:00Z'))

async function add(jobId: string, step: Readonly<Record<string, unknown>>) {
  const added = await addStep(jobId, newStep.parse(step), now)
  if (!added.ok) throw new Error(added.refusal.detail)
  return added.value
}

describe('the photos of a step', () => {
  test('show its surfaces and are progress, in order of time', async () => {
    const job = await makeJob()
    const [body = ''] = job.surfaceIds
    const later = await keepPhotoRow(job.id, {
      takenAt: '2026-10-22T10:00:00Z',
      role: 'before',
    })
    const earlier = await keepPhotoRow(job.id, {
      takenAt: '2026-10-22T09:00:00Z',
    })
    const step = await add(job.id, {
      kind: 'prime',
      surfaces: [body],
      photos: [later, earlier],
    })
    expect(step.photos).toEqual([earlier, later])
    const journal = await readJournal(job.id)
    expect(journal?.steps[0]?.photoIds).toEqual([earlier, later])
    expect(journal?.photos).toMatchObject([
      { id: earlier, role: 'progress', surfaceIds: [body], stepId: step.id },
      { id: later, role: 'progress', surfaceIds: [body], stepId: step.id },
    ])
  })

  test('stay with a changed step that names none, with their own role and surfaces', async () => {
    const job = await makeJob('Sideboard', ['body', 'top'])
    const [body = '', top = ''] = job.surfaceIds
    const step = await add(job.id, { kind: 'coat', surfaces: [body, top] })
    const photo = await keepPhotoRow(job.id, {
      role: 'after',
      surfaceIds: [body],
      stepId: step.id,
    })
    const changed = await changeStep(
      job.id,
      step.id,
      newStep.parse({ kind: 'coat', surfaces: [top, body], note: 'Thin.' }),
      now,
    )
    expect(changed).toMatchObject({ ok: true, value: { photos: [photo] } })
    expect((await readJournal(job.id))?.photos).toMatchObject([
      { id: photo, role: 'after', surfaceIds: [body], stepId: step.id },
    ])
  })

  test('show the new surfaces once the step is on others', async () => {
    const job = await makeJob('Sideboard', ['body', 'top'])
    const [body = '', top = ''] = job.surfaceIds
    const photo = await keepPhotoRow(job.id)
    const step = await add(job.id, {
      kind: 'coat',
      surfaces: [body],
      photos: [photo],
    })
    await changeStep(
      job.id,
      step.id,
      newStep.parse({ kind: 'coat', surfaces: [top] }),
      now,
    )
    expect((await readJournal(job.id))?.photos).toMatchObject([
      { id: photo, surfaceIds: [top], stepId: step.id },
    ])
  })

  test('stay when the step is taken out', async () => {
    const job = await makeJob()
    const photo = await keepPhotoRow(job.id)
    const step = await add(job.id, {
      kind: 'prime',
      surfaces: job.surfaceIds,
      photos: [photo],
    })
    expect(await removeStep(job.id, step.id, now)).toMatchObject({ ok: true })
    const journal = await readJournal(job.id)
    expect(journal?.steps).toEqual([])
    expect(journal?.photos).toMatchObject([{ id: photo }])
    expect(journal?.photos[0]?.stepId).toBeUndefined()
  })

  test('that a changed step names no longer are let go', async () => {
    const job = await makeJob()
    const [kept, dropped] = [
      await keepPhotoRow(job.id),
      await keepPhotoRow(job.id),
    ]
    const step = await add(job.id, {
      kind: 'prime',
      surfaces: job.surfaceIds,
      photos: [kept, dropped],
    })
    await changeStep(
      job.id,
      step.id,
      newStep.parse({
        kind: 'prime',
        surfaces: job.surfaceIds,
        photos: [kept],
      }),
      now,
    )
    const journal = await readJournal(job.id)
    expect(journal?.steps[0]?.photoIds).toEqual([kept])
    expect(journal?.photos).toHaveLength(2)
  })
})

describe('coats are counted', () => {
  test('by kind and by surface, and a step that is changed is not counted twice', async () => {
    const job = await makeJob()
    const [body = '', top = ''] = job.surfaceIds
    await add(job.id, { kind: 'prime', surfaces: [body] })
    const second = await add(job.id, { kind: 'prime', surfaces: [body, top] })
    const coat = await add(job.id, { kind: 'coat', surfaces: [body] })
    expect(coat.surfaces).toEqual([{ id: body, coat: 1 }])
    const changed = await changeStep(
      job.id,
      second.id,
      newStep.parse({ kind: 'prime', surfaces: [body] }),
      now,
    )
    expect(changed).toMatchObject({
      ok: true,
      value: { surfaces: [{ id: body, coat: 2 }] },
    })
  })

  test('once: a changed step that gives no number keeps the one it has, however it got it', async () => {
    const job = await makeJob()
    const [body = ''] = job.surfaceIds
    const first = await add(job.id, { kind: 'coat', surfaces: [body] })
    const second = await add(job.id, {
      kind: 'coat',
      surfaces: [body],
      coat: 7,
    })
    for (const [step, coat] of [
      [first, 1],
      [second, 7],
    ] as const) {
      const changed = await changeStep(
        job.id,
        step.id,
        newStep.parse({ kind: 'coat', surfaces: [body], note: 'Thin.' }),
        now,
      )
      expect(changed).toMatchObject({
        ok: true,
        value: { surfaces: [{ id: body, coat }] },
      })
    }
  })

  test('not for cleaning, and not for hardware that is only taken off', async () => {
    const job = await makeJob()
    const brass = await addProduct(
      newProduct.parse({
        name: 'aerosol metallic, brass',
        category: 'hardware finish',
        chemistry: 'aerosol',
      }),
      now,
    )
    const surfaces = job.surfaceIds.slice(0, 1)
    const off = await add(job.id, { kind: 'hardware', surfaces })
    const clean = await add(job.id, { kind: 'clean', surfaces })
    const sprayed = await add(job.id, {
      kind: 'hardware',
      surfaces,
      product: brass.id,
    })
    expect(off.surfaces[0]?.coat).toBeNull()
    expect(clean.surfaces[0]?.coat).toBeNull()
    expect(sprayed.surfaces[0]?.coat).toBe(1)
  })
})
