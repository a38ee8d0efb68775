import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import { finishJob } from '#services/jobs/hand-over-job'
import {
  addJob,
  addPiece,
  addSurface,
  changeJobFacts,
  readJob,
  readJobs,
} from '#services/jobs/jobs'
import { jobFacts, newJob, newPiece } from '#services/jobs/schema'
import { readJournal } from '#services/journal/read-journal'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-10-22T08:00:00Z'))

const dresser = newJob.parse({
  title: 'Pine dresser',
  pieces: [
    {
      name: 'dresser',
      kind: 'chest of drawers',
      dimensions: { width: 36, depth: 18, height: 32, unit: 'in' },
      surfaces: ['body', 'top'],
    },
  ],
})

const mirror = newPiece.parse({
  name: 'mirror',
  kind: 'mirror frame',
  surfaces: ['frame'],
})

describe('a job', () => {
  test('keeps sizes in millimetres, whatever they were given in', async () => {
    const { id } = await addJob(dresser, now)
    const journal = await readJournal(id)
    // An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    expect(journal?.pieces[0]).toMatchObject({
      widthMillimetres: 914,
      depthMillimetres: 457,
      heightMillimetres: 813,
    })
  })

  test('takes another piece and another surface, in the order they came', async () => {
    const { id } = await addJob(dresser, now)
    const added = await addPiece(id, mirror)
    if (!added.ok) throw new Error(added.refusal.detail)
    const pieceId = added.value.pieces[0]?.id ?? ''
    expect(await addSurface(id, pieceId, 'legs')).toMatchObject({ ok: true })
    const job = await readJob(id)
    expect(job?.pieces.map((piece) => piece.name)).toEqual([
      'dresser',
      'mirror',
    ])
    expect(job?.pieces[0]?.surfaces.map((surface) => surface.name)).toEqual([
      'body',
      'top',
      'legs',
    ])
  })

  test('has no two surfaces of one name on a piece, however they are written', async () => {
    const { id, pieces } = await addJob(dresser, now)
    const again = await addSurface(id, pieces[0]?.id ?? '', 'TOP')
    expect(again).toMatchObject({ ok: false, refusal: { kind: 'conflict' } })
  })

  test('that is not there takes nothing', async () => {
    const refusal = { ok: false, refusal: { kind: 'not-found' } }
    expect(await addPiece('nowhere', mirror)).toMatchObject(refusal)
    expect(await addSurface('nowhere', 'nowhere', 'top')).toMatchObject(refusal)
    expect(await finishJob('nowhere', now)).toMatchObject(refusal)
    expect(await readJob('nowhere')).toBeUndefined()
  })

  test('keeps what is told of it, and an empty text as nothing', async () => {
    const { id, pieces } = await addJob(dresser, now)
    const facts = jobFacts.parse({
      title: 'Pine dresser, green',
      askingPriceMinor: 26_000,
      collection: ' ',
      pieces: [
        {
          id: pieces[0]?.id,
          name: 'dresser',
          kind: 'chest of drawers',
          dimensions: { width: 910 },
          material: 'solid pine',
          flaws: '',
        },
      ],
    })
    expect(await changeJobFacts(id, facts)).toMatchObject({ ok: true })
    const journal = await readJournal(id)
    expect(journal?.job).toMatchObject({
      title: 'Pine dresser, green',
      askingPriceMinor: 26_000,
    })
    expect(journal?.job.collection).toBeUndefined()
    expect(journal?.pieces[0]).toMatchObject({
      widthMillimetres: 910,
      material: 'solid pine',
    })
    expect(journal?.pieces[0]?.heightMillimetres).toBeUndefined()
    expect(journal?.pieces[0]?.flaws).toBeUndefined()
  })

  test('tells nothing of a piece of another job, and changes nothing then', async () => {
    const other = await addJob(dresser, now)
    const own = await addJob(dresser, now)
    const { id } = own
    const facts = jobFacts.parse({
      title: 'never to be seen',
      askingPriceMinor: null,
      collection: '',
      pieces: [
        {
          id: own.pieces[0]?.id,
          name: 'never to be seen',
          kind: 'chest of drawers',
          dimensions: {},
          material: '',
          flaws: '',
        },
        {
          id: other.pieces[0]?.id,
          name: 'dresser',
          kind: 'dresser',
          dimensions: {},
          material: '',
          flaws: '',
        },
      ],
    })
    expect(await changeJobFacts(id, facts)).toMatchObject({ ok: false })
    const kept = await readJob(id)
    expect(kept?.title).toBe('Pine dresser')
    expect(kept?.pieces[0]?.name).toBe('dresser')
  })

  test('is shown by the after of its first pair, else its first after, else by what was taken last', async () => {
    const { id } = await addJob(dresser, now)
    const cover = async () =>
      (await readJobs(undefined, 1)).jobs[0]?.coverPhotoId
    const take = (role: string, takenAt: string) =>
      keepPhotoRow(id, { role, takenAt })
    const before = await take('before', '2026-10-22T07:00:00Z')
    await take('progress', '2026-10-22T08:00:00Z')
    const later = await take('progress', '2026-10-23T08:00:00Z')
    expect(await cover()).toBe(later)
    await take('after', '2026-10-27T09:00:00Z')
    const front = await take('after', '2026-10-26T09:00:00Z')
    expect(await cover()).toBe(front)
    const paired = await take('after', '2026-10-28T09:00:00Z')
    const db = await database()
    await db.pair.create({
      data: {
        id: 'pair',
        jobId: id,
        beforeId: before,
        afterId: paired,
        how: 'computed',
        turns: '0,0',
        createdAt: new Date('2026-10-28T10:00:00Z'),
      },
    })
    expect(await cover()).toBe(paired)
  })

  test('is finished, and can be opened again', async () => {
    const { id } = await addJob(dresser, now)
    await finishJob(id, now)
    expect((await readJob(id))?.finishedAt).toBe(now)
    await finishJob(id, null)
    expect((await readJob(id))?.finishedAt).toBeNull()
  })

  test('gets a new revision with every change, so that nothing computed from it stays old', async () => {
    const { id, pieces } = await addJob(dresser, now)
    const db = await database()
    const revision = async () =>
      (await db.job.findUniqueOrThrow({ where: { id } })).revision
    const before = await revision()
    await addPiece(id, mirror)
    const then = await revision()
    await addSurface(id, pieces[0]?.id ?? '', 'legs')
    const later = await revision()
    await finishJob(id, now)
    expect([then, later, await revision()]).toEqual([
      before + 1,
      before + 2,
      before + 3,
    ])
  })
})

describe('the list', () => {
  test('counts the photos and steps of each job, and shows an after before a before', async () => {
    const one = await addJob(dresser, now)
    const other = await addJob({ ...dresser, title: 'Another' }, now)
    await keepPhotoRow(one.id, { role: 'before' })
    await keepPhotoRow(one.id, { role: 'progress' })
    const after = await keepPhotoRow(one.id, { role: 'after' })
    const before = await keepPhotoRow(other.id, { role: 'before' })
    const { jobs } = await readJobs(undefined, 10)
    const found = (id: string) => jobs.find((job) => job.id === id)
    expect(found(one.id)).toMatchObject({
      photoCount: 3,
      stepCount: 0,
      coverPhotoId: after,
    })
    expect(found(other.id)).toMatchObject({
      photoCount: 1,
      coverPhotoId: before,
    })
  })
})
