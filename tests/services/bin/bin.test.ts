import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import {
  countBinned,
  readBin,
  removePhoto,
  restorePhoto,
} from '#services/bin/bin'
import { readCameras } from '#services/cameras/cameras'
import { checkJournal } from '#services/check/check-journal'
import { database } from '#services/database/open-database'
import { readJobs } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import { placePhotos } from '#services/photos/place-photos'
import { renditionsIdle } from '#services/renditions/renditions'
import { makeSheet } from '#services/sheets/make-sheet'
import { addStep, changeStep } from '#services/steps/steps'
import { newStep } from '#services/steps/schema'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-11-02T09:00:00Z'))

async function keepPair() {
  const job = await makeJob()
  const ids: string[] = []
  const files: Buffer[] = []
  for (const [role, width] of [
    ['before', 64],
    ['after', 66],
  ] as const) {
    const bytes = await makePhoto({ width, make: 'Alder', model: 'Camera B' })
    const { photos } = await sendPhotos(
      job.id,
      [[`${role}.jpg`, bytes]],
      [
        ['role', role],
        ['view', 'front'],
      ],
    )
    ids.push(photos[0]?.id ?? '')
    files.push(bytes)
  }
  const [before = '', after = ''] = ids
  return { job, before, after, files }
}

async function revisionOf(jobId: string): Promise<number> {
  const db = await database()
  const row = await db.job.findUniqueOrThrow({ where: { id: jobId } })
  return row.revision
}

describe('a photo in the bin', () => {
  test('is in no list, no count and on no sheet, and its job is asked for anew', async () => {
    const { job, before, after } = await keepPair()
    expect((await makeSheet(job.id, '1x1', 'jpg')).ok).toBe(true)
    const revision = await revisionOf(job.id)
    expect(await removePhoto(job.id, after, now)).toEqual({
      ok: true,
      value: undefined,
    })
    const journal = await readJournal(job.id)
    expect(journal?.photos.map((photo) => photo.id)).toEqual([before])
    expect((await readJobs(undefined, 5)).jobs[0]).toMatchObject({
      photoCount: 1,
      coverPhotoId: before,
    })
    expect(await makeSheet(job.id, '1x1', 'jpg')).toMatchObject({ ok: false })
    expect((await readCameras())[0]?.photoCount).toBe(1)
    expect(await revisionOf(job.id)).toBeGreaterThan(revision)
  })

  test('is in the bin once, with when it got there', async () => {
    const { job, after } = await keepPair()
    await removePhoto(job.id, after, now)
    await removePhoto(job.id, after, instant(now + 60_000))
    expect(await countBinned(job.id)).toBe(1)
    const { photos, count } = await readBin()
    expect(count).toBe(1)
    expect(photos).toMatchObject([
      { id: after, jobId: job.id, fileName: 'after.jpg', removedAt: now },
    ])
  })

  test('keeps its bytes and its renditions, and the check has nothing to say', async () => {
    const { job, after } = await keepPair()
    await renditionsIdle()
    await removePhoto(job.id, after, now)
    const check = await checkJournal()
    expect(check).toMatchObject({
      originals: 2,
      photos: 2,
      renditionsRemoved: 0,
      findings: [],
    })
  })

  test('comes back as it was, with the step it shows', async () => {
    const { job, after } = await keepPair()
    const step = newStep.parse({
      kind: 'sand',
      surfaces: [job.surfaceIds[0]],
      photos: [after],
    })
    const added = await addStep(job.id, step, now)
    const stepId = added.ok ? added.value.id : ''
    const was = await readJournal(job.id)
    await removePhoto(job.id, after, now)
    expect((await readJournal(job.id))?.steps[0]?.photoIds).toEqual([])
    // A step that is written down anew lets go of photos it does not name, but not of what is in the bin.
    await changeStep(job.id, stepId, { ...step, photos: [] }, now)
    expect((await restorePhoto(job.id, after)).ok).toBe(true)
    expect((await readJournal(job.id))?.photos).toEqual(was?.photos)
    expect(await readBin()).toEqual({ photos: [], count: 0 })
  })

  test('comes back when its bytes are sent again', async () => {
    const { job, after, files } = await keepPair()
    await removePhoto(job.id, after, now)
    const { photos } = await sendPhotos(job.id, [
      ['again.jpg', files[1] ?? Buffer.alloc(0)],
    ])
    expect(photos).toMatchObject([
      {
        id: after,
        warnings: ['This photo was in the bin; it is back in the job.'],
      },
    ])
    expect((await readJournal(job.id))?.photos).toHaveLength(2)
  })

  test('is not named as the one that other bytes repeat', async () => {
    const { job, after, files } = await keepPair()
    await removePhoto(job.id, after, now)
    const other = await makeJob()
    const { photos } = await sendPhotos(other.id, [
      ['again.jpg', files[1] ?? Buffer.alloc(0)],
    ])
    expect(photos[0]?.duplicateOf).toBeUndefined()
    expect(photos[0]?.id).not.toBe(after)
  })

  test('cannot be placed', async () => {
    const { job, after } = await keepPair()
    await removePhoto(job.id, after, now)
    expect(
      await placePhotos(job.id, { photos: [after], role: 'before' }),
    ).toMatchObject({ ok: false })
    const step = newStep.parse({
      kind: 'sand',
      surfaces: [job.surfaceIds[0]],
      photos: [after],
    })
    expect(await addStep(job.id, step, now)).toMatchObject({ ok: false })
  })

  test('belongs to one job: another can neither remove nor restore it', async () => {
    const { job, after } = await keepPair()
    const other = await makeJob()
    const refusal = { refusal: { kind: 'not-found' } }
    expect(await removePhoto(other.id, after, now)).toMatchObject(refusal)
    await removePhoto(job.id, after, now)
    expect(await restorePhoto(other.id, after)).toMatchObject(refusal)
    expect(await restorePhoto(job.id, 'nobody')).toMatchObject(refusal)
    expect(await countBinned(job.id)).toBe(1)
  })
})
