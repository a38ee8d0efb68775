import { describe, expect, test } from 'vitest'
import { addMinutes, instant } from '#core/units'
import { readJournal } from '#services/journal/read-journal'
import { correctHours, readBooks } from '#services/money/books'
import { stepHours } from '#services/money/schema'
import { confirmPlacing } from '#services/placing/confirm-placing'
import { newPlacing } from '#services/placing/schema'
import { readLastPlacing, undoPlacing } from '#services/placing/undo-placing'
import { placePhotos } from '#services/photos/place-photos'
import { photoPlacing } from '#services/photos/schema'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { changeStep } from '#services/steps/steps'
import { makeJob, makeStep } from '../../support/make-job'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-10-22T18:00:00Z'))

async function cardOf(jobId: string, count: number): Promise<string[]> {
  const ids: string[] = []
  for (let minute = 0; minute < count; minute += 1) {
    ids.push(
      await keepPhotoRow(jobId, { takenAt: `2026-10-22T08:0${minute}:00Z` }),
    )
  }
  return ids
}

async function shownIn(jobId: string) {
  const journal = await readJournal(jobId)
  if (journal === undefined) throw new Error('the job is gone')
  return journal
}

async function placeCard() {
  const job = await makeJob()
  const [body = '', top = ''] = job.surfaceIds
  const [before = '', one = '', two = '', old = ''] = await cardOf(job.id, 4)
  const stripped = await makeStep(job.id, 'strip', [top])
  const prime = {
    as: 'step',
    kind: 'prime',
    surfaces: [body],
    coat: 1,
  } as const
  const placing = newPlacing.parse({
    choices: [
      { photos: [before], place: { as: 'before' } },
      { photos: [one], place: prime },
      { photos: [two], place: prime },
      { photos: [old], place: { as: 'step', step: stripped } },
    ],
  })
  const kept = await confirmPlacing(job.id, placing, now)
  if (!kept.ok) throw new Error(kept.refusal.detail)
  return {
    job,
    body,
    top,
    before,
    one,
    two,
    old,
    stripped,
    kept: kept.value,
    placing,
  }
}

describe('a card that is confirmed', () => {
  test('names the product of a new step, and refuses one that is not on the shelf', async () => {
    const job = await makeJob()
    const [body = ''] = job.surfaceIds
    const [one = '', two = ''] = await cardOf(job.id, 2)
    const primer = await addProduct(
      newProduct.parse({
        name: 'waterborne primer, white',
        category: 'primer',
        chemistry: 'waterborne-acrylic',
      }),
      now,
    )
    const primed = (product: string) =>
      newPlacing.parse({
        choices: [one, two].map((photo) => ({
          photos: [photo],
          place: {
            ...{ as: 'step', kind: 'prime', surfaces: [body], coat: 1 },
            product,
          },
        })),
      })
    const unknown = await confirmPlacing(job.id, primed('no such can'), now)
    expect(unknown).toMatchObject({ ok: false, refusal: { kind: 'not-found' } })
    const kept = await confirmPlacing(job.id, primed(primer.id), now)
    expect(kept.ok).toBe(true)
    expect((await shownIn(job.id)).steps).toMatchObject([
      { kind: 'prime', productId: primer.id, photoIds: [one, two] },
    ])
    // What was said in the same go is taken back with it.
    await undoPlacing(job.id, kept.ok ? kept.value.id : '', now)
    expect((await shownIn(job.id)).steps).toEqual([])
  })

  test('is placed: before, one new coat for its two photos, and the step that was there', async () => {
    const { job, body, top, before, one, two, old, stripped, kept } =
      await placeCard()
    const { photos, steps } = await shownIn(job.id)
    expect(kept.photoCount).toBe(4)
    expect(kept.steps).toHaveLength(1)
    expect(steps).toHaveLength(2)
    expect(steps.find((step) => step.id === kept.steps[0])).toMatchObject({
      kind: 'prime',
      surfaces: [{ surfaceId: body, coat: 1 }],
      photoIds: [one, two],
    })
    const byId = new Map(photos.map((photo) => [photo.id, photo]))
    expect(byId.get(before)?.role).toBe('before')
    expect(byId.get(two)?.surfaceIds).toEqual([body])
    expect(byId.get(old)).toMatchObject({ stepId: stripped, surfaceIds: [top] })
  })

  test('is taken back with the step that was added for it', async () => {
    const { job, stripped, kept } = await placeCard()
    expect(await readLastPlacing(job.id, addMinutes(now, 5))).toMatchObject({
      photoCount: 4,
      stepCount: 1,
      isUndone: false,
    })
    const undone = await undoPlacing(job.id, kept.id, now)
    expect(undone).toEqual({ ok: true, value: { photoCount: 4 } })
    const { photos, steps } = await shownIn(job.id)
    expect(steps.map((step) => step.id)).toEqual([stripped])
    for (const photo of photos) {
      expect(photo).toMatchObject({ role: 'progress', surfaceIds: [] })
      expect(photo.stepId).toBeUndefined()
    }
    expect(await undoPlacing(job.id, kept.id, now)).toMatchObject({
      ok: false,
      refusal: { kind: 'conflict' },
    })
    expect((await readLastPlacing(job.id, now))?.isUndone).toBe(true)
  })

  test('leaves alone what was placed elsewhere since, and the step that got another photo', async () => {
    const { job, before, kept } = await placeCard()
    const [primed = ''] = kept.steps
    await placePhotos(
      job.id,
      photoPlacing.parse({ photos: [before], step: primed }),
    )
    expect(await undoPlacing(job.id, kept.id, now)).toEqual({
      ok: true,
      value: { photoCount: 3 },
    })
    const { steps } = await shownIn(job.id)
    expect(steps.find((step) => step.id === primed)?.photoIds).toEqual([before])
  })
})

describe('a step that was added for photos stays without them', () => {
  test('once the can was weighed', async () => {
    const { job, body, kept } = await placeCard()
    const [primed = ''] = kept.steps
    const weighed = { beforeGrams: 812.5, afterGrams: 640 }
    await changeStep(
      job.id,
      primed,
      newStep.parse({ kind: 'prime', surfaces: [body], weighed }),
      now,
    )
    await undoPlacing(job.id, kept.id, now)
    const { steps } = await shownIn(job.id)
    expect(steps.find((step) => step.id === primed)).toMatchObject({
      photoIds: [],
      weighed,
    })
  })

  test('once its hours were written down', async () => {
    const { job, kept } = await placeCard()
    const [primed = ''] = kept.steps
    await correctHours(job.id, [
      stepHours.parse({ step: primed, workMinutes: 40 }),
    ])
    await undoPlacing(job.id, kept.id, now)
    const { steps } = await shownIn(job.id)
    expect(steps.map((step) => step.id)).toContain(primed)
    expect((await readBooks([job.id])).get(job.id)?.hours).toMatchObject([
      { stepId: primed, workMinutes: 40 },
    ])
  })
})

describe('is refused, with nothing changed', () => {
  test('what was placed meanwhile', async () => {
    const { job, placing } = await placeCard()
    expect(await confirmPlacing(job.id, placing, now)).toMatchObject({
      ok: false,
      refusal: { kind: 'conflict' },
    })
    expect((await shownIn(job.id)).steps).toHaveLength(2)
  })

  test('a photo, a step or a surface of another job, and a photo chosen twice', async () => {
    const job = await makeJob()
    const other = await makeJob('Blanket box')
    const [own = ''] = await cardOf(job.id, 1)
    const [foreign = ''] = await cardOf(other.id, 1)
    const step = await makeStep(other.id, 'prime', other.surfaceIds)
    const before = { as: 'before' }
    for (const choices of [
      [{ photos: [own, foreign], place: before }],
      [{ photos: [own], place: { as: 'step', step } }],
      [
        {
          photos: [own],
          place: { as: 'step', kind: 'sand', surfaces: other.surfaceIds },
        },
      ],
      [
        { photos: [own], place: before },
        { photos: [own], place: { as: 'after' } },
      ],
    ]) {
      const placed = await confirmPlacing(
        job.id,
        newPlacing.parse({ choices }),
        now,
      )
      expect(placed.ok).toBe(false)
    }
    const { photos, steps } = await shownIn(job.id)
    expect(photos[0]?.role).toBe('progress')
    expect(steps).toEqual([])
  })

  test('taking back what belongs to another job', async () => {
    const { kept } = await placeCard()
    const other = await makeJob('Blanket box')
    expect(await undoPlacing(other.id, kept.id, now)).toMatchObject({
      ok: false,
      refusal: { kind: 'not-found' },
    })
  })
})
