import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { readBench } from '#services/bench/bench'
import { countBinned, readBin, removePhoto } from '#services/bin/bin'
import {
  type BinPlace,
  putInBin,
  readBinnedParts,
  takeBack,
} from '#services/bin/bin-parts'
import { readLastChange, undoChange } from '#services/changes/changes'
import { addPiece, addSurface, readJob, readJobs } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import { addCost, readBooks } from '#services/money/books'
import { readSnapJobs, readSnapTargets } from '#services/snap/read-snap'
import { readOpenViews } from '#services/snap/read-views'
import { newStep } from '#services/steps/schema'
import { addStep, changeStep, removeStep } from '#services/steps/steps'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-11-02T09:00:00Z'))
const later = (minutes: number) => instant(now + minutes * 60_000)

/** A sideboard (body, top) and a bench (seat, legs), with a step on each, one on both, and photos of each. */
async function makeTwoPieces() {
  const job = await makeJob()
  await addPiece(job.id, {
    name: 'bench',
    kind: 'bench',
    surfaces: ['seat', 'legs'],
  })
  const [sideboard, bench] = (await readJob(job.id))?.pieces ?? []
  const surface = (name: string) =>
    [...(sideboard?.surfaces ?? []), ...(bench?.surfaces ?? [])].find(
      (one) => one.name === name,
    )?.id ?? ''
  let width = 64
  const photo = async (fields: readonly (readonly [string, string])[]) => {
    const bytes = await makePhoto({ width: width++ })
    const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]], fields)
    return photos[0]?.id ?? ''
  }
  const step = async (surfaces: readonly string[]) => {
    const added = await addStep(
      job.id,
      newStep.parse({ kind: 'coat', surfaces: surfaces.map(surface) }),
      now,
    )
    return added.ok ? added.value.id : ''
  }
  const steps = {
    top: await step(['top']),
    seat: await step(['seat']),
    both: await step(['body', 'seat', 'legs']),
  }
  const photos = {
    before: await photo([['role', 'before']]),
    bench: await photo([
      ['role', 'before'],
      ['surface', surface('seat')],
    ]),
    seat: await photo([['step', steps.seat]]),
    both: await photo([['step', steps.both]]),
  }
  const place = (kind: BinPlace['kind'], id: string): BinPlace => ({
    kind,
    jobId: job.id,
    id,
  })
  return {
    job,
    surface,
    steps,
    photos,
    wholeJob: place('job', job.id),
    bench: place('piece', bench?.id ?? ''),
    sideboard: place('piece', sideboard?.id ?? ''),
    on: (name: string) => place('surface', surface(name)),
  }
}

async function shownOf(jobId: string) {
  const journal = await readJournal(jobId)
  return {
    pieces: journal?.pieces.map(({ name }) => name),
    steps: new Set(journal?.steps.map(({ id }) => id)),
    photos: new Set(journal?.photos.map(({ id }) => id)),
  }
}

describe('a piece in the bin', () => {
  test('takes along what was done to it alone, and leaves what it shares', async () => {
    const { job, bench, steps, photos, surface } = await makeTwoPieces()
    expect(await putInBin(bench, now)).toMatchObject({ ok: true })
    expect(await shownOf(job.id)).toEqual({
      pieces: ['sideboard'],
      steps: new Set([steps.top, steps.both]),
      photos: new Set([photos.before, photos.both]),
    })
    const journal = await readJournal(job.id)
    expect(
      journal?.steps.find(({ id }) => id === steps.both)?.surfaces,
    ).toEqual([{ surfaceId: surface('body'), coat: 1 }])
    expect(
      journal?.photos.find(({ id }) => id === photos.both)?.surfaceIds,
    ).toEqual([surface('body')])
    expect((await readJobs(undefined, 5)).jobs[0]).toMatchObject({
      stepCount: 2,
      photoCount: 2,
      pieces: [{ name: 'sideboard' }],
    })
    expect((await readSnapJobs())[0]?.pieces).toHaveLength(1)
  })

  test('is told once, without what went in with it', async () => {
    const { job, bench } = await makeTwoPieces()
    await putInBin(bench, now)
    await putInBin(bench, later(5))
    expect(await readBinnedParts()).toMatchObject([
      { kind: 'piece', name: 'bench', jobId: job.id, removedAt: now },
    ])
    expect(await readBin()).toEqual({ photos: [], count: 0 })
    expect(await countBinned(job.id)).toBe(0)
  })

  test('comes back as it was, but for a photo that was removed by itself before', async () => {
    const { job, bench, photos } = await makeTwoPieces()
    await removePhoto(job.id, photos.seat, now)
    const was = await readJournal(job.id)
    await putInBin(bench, later(1))
    expect(await takeBack(bench)).toMatchObject({ ok: true })
    expect(await readJournal(job.id)).toEqual(was)
    expect((await readBin()).photos).toMatchObject([{ id: photos.seat }])
  })

  test('keeps its part of a step that is written down anew meanwhile', async () => {
    const { job, bench, steps, surface } = await makeTwoPieces()
    const was = await readJournal(job.id)
    await putInBin(bench, now)
    const anew = newStep.parse({ kind: 'coat', surfaces: [surface('body')] })
    await changeStep(job.id, steps.both, anew, later(1))
    await takeBack(bench)
    const on = (journal: typeof was) =>
      new Set(
        journal?.steps
          .find(({ id }) => id === steps.both)
          ?.surfaces.map(({ surfaceId }) => surfaceId),
      )
    expect(on(await readJournal(job.id))).toEqual(on(was))
  })

  test('keeps its costs out of the books until it is back', async () => {
    const { job, bench } = await makeTwoPieces()
    await addCost(
      job.id,
      {
        kind: 'parts',
        words: 'hinges',
        quantity: 1,
        eachMinor: 900,
        piece: bench.id,
      },
      now,
    )
    const costs = async () =>
      (await readBooks([job.id])).get(job.id)?.costs.length
    expect(await costs()).toBe(1)
    await putInBin(bench, now)
    expect(await costs()).toBe(0)
    await takeBack(bench)
    expect(await costs()).toBe(1)
  })

  test('is refused for the last one, and for one of another job', async () => {
    const { bench, sideboard } = await makeTwoPieces()
    await putInBin(bench, now)
    expect(await putInBin(sideboard, now)).toMatchObject({
      refusal: { kind: 'conflict' },
    })
    const other = await makeJob()
    expect(await putInBin({ ...bench, jobId: other.id }, now)).toMatchObject({
      refusal: { kind: 'not-found' },
    })
    expect(await takeBack({ ...bench, jobId: other.id })).toMatchObject({
      refusal: { kind: 'not-found' },
    })
  })
})

describe('a surface in the bin', () => {
  test.each([
    ['the first one in comes back first', ['seat', 'body']],
    ['the last one in comes back first', ['body', 'seat']],
  ])('shares its steps, whichever comes back first: %s', async (_, order) => {
    const { job, on } = await makeTwoPieces()
    const was = await readJournal(job.id)
    for (const [index, name] of ['seat', 'body', 'legs'].entries()) {
      const put = await putInBin(on(name), later(index))
      // The legs are the last surface of the bench by then.
      expect(put.ok).toBe(name !== 'legs')
    }
    for (const name of order) {
      expect(await takeBack(on(name))).toMatchObject({ ok: true })
    }
    expect(await readJournal(job.id)).toEqual(was)
    expect(await readBinnedParts(job.id)).toEqual([])
  })

  test('comes back only after its piece', async () => {
    const { bench, on } = await makeTwoPieces()
    await putInBin(on('seat'), now)
    await putInBin(bench, later(1))
    expect(await takeBack(on('seat'))).toMatchObject({
      refusal: { kind: 'conflict' },
    })
    await takeBack(bench)
    expect(await readBinnedParts()).toMatchObject([
      { kind: 'surface', name: 'bench, seat' },
    ])
    expect(await takeBack(on('seat'))).toMatchObject({ ok: true })
  })

  test('is offered back to whoever adds one of its name', async () => {
    const { job, bench, on } = await makeTwoPieces()
    await putInBin(on('seat'), now)
    const again = await addSurface(job.id, bench.id, 'Seat')
    expect(again.ok ? '' : again.refusal.detail).toContain('in the bin')
  })

  test('hides a step that was removed and is brought back by undoing', async () => {
    const { job, steps, on } = await makeTwoPieces()
    await removeStep(job.id, steps.seat, later(1))
    await putInBin(on('seat'), later(2))
    const change = await readLastChange(job.id, later(3))
    expect(await undoChange(job.id, change?.id ?? '', later(3))).toMatchObject({
      ok: true,
    })
    expect((await shownOf(job.id)).steps.has(steps.seat)).toBe(false)
    await takeBack(on('seat'))
    expect((await shownOf(job.id)).steps.has(steps.seat)).toBe(true)
  })
})

describe('a job in the bin', () => {
  test('is in no list, on no bench and in no snap', async () => {
    const { job, wholeJob } = await makeTwoPieces()
    await putInBin(wholeJob, now)
    expect(await readJournal(job.id)).toBeUndefined()
    expect(await readJob(job.id)).toBeUndefined()
    expect((await readJobs(undefined, 5)).jobs).toEqual([])
    expect(await readSnapJobs()).toEqual([])
    expect(await readSnapTargets(now, 12)).toEqual([])
    expect(await readOpenViews()).toEqual([])
    const { wet, ready } = await readBench(now)
    expect([...wet, ...ready]).toEqual([])
  })

  test('comes back as it was, with what was in the bin before still there', async () => {
    const { job, wholeJob, bench } = await makeTwoPieces()
    await putInBin(bench, now)
    const was = await readJournal(job.id)
    await putInBin(wholeJob, later(1))
    expect(await readBinnedParts()).toMatchObject([{ kind: 'job' }])
    expect(await takeBack(bench)).toMatchObject({
      refusal: { kind: 'conflict' },
    })
    expect(await takeBack(wholeJob)).toMatchObject({ ok: true })
    expect(await readJournal(job.id)).toEqual(was)
    expect(await readBinnedParts()).toMatchObject([{ kind: 'piece' }])
  })

  test('still takes what a phone sends late, and has it when it is back', async () => {
    const { job, wholeJob } = await makeTwoPieces()
    await putInBin(wholeJob, now)
    await sendPhotos(job.id, [['late.jpg', await makePhoto({ width: 90 })]])
    await takeBack(wholeJob)
    expect((await readJournal(job.id))?.photos).toHaveLength(5)
  })
})
