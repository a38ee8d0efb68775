import { existsSync, readdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { type Instant, addMinutes, instant, minutesPerDay } from '#core/units'
import { removePhoto, restorePhoto } from '#services/bin/bin'
import { putInBin, readBinnedParts, takeBack } from '#services/bin/bin-parts'
import { changeBinRules } from '#services/bin/bin-settings'
import {
  emptyDueBin,
  emptyWholeBin,
  readReleasedOriginals,
} from '#services/bin/empty-bin'
import { readChanges, undoChange } from '#services/changes/changes'
import { checkJournal } from '#services/check/check-journal'
import { database, openDataFolder } from '#services/database/open-database'
import { addPiece, readJob } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { renditionsIdle } from '#services/renditions/renditions'
import { newStep } from '#services/steps/schema'
import { addStep } from '#services/steps/steps'
import { makeJob, makeStep } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const start = instant(Date.parse('2026-11-02T09:00:00Z'))
const day = (count: number): Instant => addMinutes(start, count * minutesPerDay)
const nothing = { jobs: 0, pieces: 0, surfaces: 0, steps: 0, photos: 0 }

async function sent(
  jobId: string,
  width: number,
  fields: readonly (readonly [string, string])[] = [],
) {
  const bytes = await makePhoto({ width })
  const { photos } = await sendPhotos(jobId, [['a.jpg', bytes]], fields)
  const [photo] = photos
  if (photo === undefined) throw new Error('the photo was not kept')
  return { ...photo, bytes }
}

/** Looks on each day, as a server that runs does. */
async function lookUntil(last: number, first = 0) {
  const emptied = []
  for (let count = first; count <= last; count += 1) {
    emptied.push(await emptyDueBin(day(count)))
  }
  return emptied
}

async function isOnDisk(sha256: string): Promise<boolean> {
  return (await (await openPhotoStore()).stat(sha256)) !== undefined
}

/** What the journal says of itself. */
async function findings(): Promise<readonly string[]> {
  await renditionsIdle()
  return (await checkJournal()).findings
}

async function renditionsOf(sha256: string): Promise<number> {
  const { renditions } = await openDataFolder()
  return readdirSync(renditions, { recursive: true }).filter((name) =>
    path.basename(String(name)).startsWith(sha256),
  ).length
}

describe('a photo in the bin', () => {
  test('goes after its thirty days, its pictures with it, and its file a week later', async () => {
    const job = await makeJob()
    const gone = await sent(job.id, 71)
    const stays = await sent(job.id, 72)
    await renditionsIdle()
    await emptyDueBin(start)
    await removePhoto(job.id, gone.id, start)
    expect(await lookUntil(29, 1)).toEqual(Array(29).fill(nothing))
    expect(await renditionsOf(gone.sha256)).toBeGreaterThan(0)
    expect(await emptyDueBin(day(30))).toEqual({ ...nothing, photos: 1 })
    expect(await restorePhoto(job.id, gone.id)).toMatchObject({
      refusal: { kind: 'not-found' },
    })
    expect(await renditionsOf(gone.sha256)).toBe(0)
    expect(await isOnDisk(gone.sha256)).toBe(true)
    expect(await readReleasedOriginals()).toEqual({
      count: 1,
      byteLength: gone.bytes.byteLength,
    })
    expect(await findings()).toEqual([])

    await lookUntil(36, 31)
    expect(await isOnDisk(gone.sha256)).toBe(true)
    await emptyDueBin(day(37))
    expect(await isOnDisk(gone.sha256)).toBe(false)
    expect(await readReleasedOriginals()).toEqual({ count: 0, byteLength: 0 })
    expect(await isOnDisk(stays.sha256)).toBe(true)
    expect(await findings()).toEqual([])
  })

  test('leaves the file alone where another job shows it', async () => {
    const [one, other] = [await makeJob('One'), await makeJob('Other')]
    const photo = await sent(one.id, 73)
    await sent(other.id, 73)
    await removePhoto(one.id, photo.id, start)
    await emptyWholeBin(start)
    expect(await readReleasedOriginals()).toMatchObject({ count: 0 })
    await lookUntil(60)
    expect(await isOnDisk(photo.sha256)).toBe(true)
    expect(await findings()).toEqual([])
  })

  test('leaves the file alone when the same photo is sent again before it goes', async () => {
    const job = await makeJob()
    const photo = await sent(job.id, 74)
    await removePhoto(job.id, photo.id, start)
    await emptyWholeBin(start)
    const again = await sent(job.id, 74)
    expect(again.id).not.toBe(photo.id)
    await lookUntil(40)
    expect(await isOnDisk(photo.sha256)).toBe(true)
    expect(await readReleasedOriginals()).toMatchObject({ count: 0 })
    expect(await findings()).toEqual([])
  })

  test('stays where its owner wants the bin to keep everything', async () => {
    const job = await makeJob()
    const photo = await sent(job.id, 75)
    await removePhoto(job.id, photo.id, start)
    await changeBinRules({ originalDays: 0 })
    expect(await lookUntil(50)).toEqual(Array(51).fill(nothing))
    expect(await restorePhoto(job.id, photo.id)).toMatchObject({ ok: true })
  })

  test('takes its file along at once where its owner wants no more days', async () => {
    const job = await makeJob()
    const photo = await sent(job.id, 76)
    await changeBinRules({ keepDays: 1, originalDays: 0 })
    await emptyDueBin(start)
    await removePhoto(job.id, photo.id, start)
    expect(await emptyDueBin(day(1))).toEqual({ ...nothing, photos: 1 })
    expect(await isOnDisk(photo.sha256)).toBe(false)
  })
})

describe('what belongs together', () => {
  test('a job goes with all that was its own, and leaves the shelf and other jobs alone', async () => {
    const [one, other] = [await makeJob('One'), await makeJob('Other')]
    await makeStep(one.id, 'prime', one.surfaceIds)
    await makeStep(other.id, 'prime', other.surfaceIds)
    await sent(one.id, 77)
    await sent(other.id, 78)
    const was = await readJournal(other.id)
    await putInBin({ kind: 'job', jobId: one.id, id: one.id }, start)
    expect(await emptyWholeBin(start)).toEqual({
      jobs: 1,
      pieces: 1,
      surfaces: 2,
      steps: 1,
      photos: 1,
    })
    expect(await readBinnedParts()).toEqual([])
    expect(await readJournal(other.id)).toEqual(was)
    expect(await findings()).toEqual([])
  })

  test('a piece goes with the steps on it alone; one that it shares keeps its other part', async () => {
    const job = await makeJob()
    await addPiece(job.id, { name: 'bench', kind: 'bench', surfaces: ['seat'] })
    const bench = (await readJob(job.id))?.pieces[1]
    const seat = bench?.surfaces[0]?.id ?? ''
    const [body = ''] = job.surfaceIds
    await makeStep(job.id, 'coat', [seat])
    const both = await makeStep(job.id, 'coat', [seat, body])
    const shared = await sent(job.id, 79, [['step', both]])
    const piece = { kind: 'piece', jobId: job.id, id: bench?.id ?? '' } as const
    await putInBin(piece, start)
    expect(await emptyWholeBin(start)).toEqual({
      ...nothing,
      pieces: 1,
      surfaces: 1,
      steps: 1,
    })
    expect(await takeBack(piece)).toMatchObject({ ok: false })
    const journal = await readJournal(job.id)
    expect(journal?.steps).toMatchObject([
      { id: both, surfaces: [{ surfaceId: body }] },
    ])
    expect(journal?.photos.map(({ id }) => id)).toEqual([shared.id])
    expect(await findings()).toEqual([])
  })

  test('a step that a phone sent late for a surface in the bin is not left on nothing; its photo stays in the job', async () => {
    const job = await makeJob()
    const [, top = ''] = job.surfaceIds
    const place = { kind: 'surface', jobId: job.id, id: top } as const
    await putInBin(place, start)
    const late = await makeStep(job.id, 'coat', [top])
    const photo = await sent(job.id, 80, [['step', late]])
    await emptyWholeBin(start)
    const db = await database()
    expect(await db.step.count()).toBe(0)
    const journal = await readJournal(job.id)
    expect(journal?.photos.map(({ id }) => id)).toEqual([photo.id])
  })

  test('a change that named what is gone can be listed, and undoing it is refused in words', async () => {
    const job = await makeJob()
    const [, top = ''] = job.surfaceIds
    const photo = await sent(job.id, 81)
    const added = await addStep(
      job.id,
      newStep.parse({ kind: 'coat', surfaces: [top], photos: [photo.id] }),
      start,
    )
    expect(added.ok).toBe(true)
    await putInBin({ kind: 'surface', jobId: job.id, id: top }, start)
    await emptyWholeBin(start)
    const [change] = await readChanges(job.id)
    expect(change).toBeDefined()
    expect(await undoChange(job.id, change?.id ?? '', day(1))).toMatchObject({
      refusal: { kind: 'conflict' },
    })
  })
})

test('what was removed at a time that is still to come, by a clock that was wrong, stays until it is emptied by hand', async () => {
  const job = await makeJob()
  const photo = await sent(job.id, 82)
  await removePhoto(job.id, photo.id, day(20_000))
  expect(await lookUntil(40)).toEqual(Array(41).fill(nothing))
  expect(await emptyWholeBin(day(41))).toEqual({ ...nothing, photos: 1 })
})

test('bytes that are arriving are waited for, and those that have just been kept are not removed', async () => {
  const job = await makeJob()
  const photo = await sent(job.id, 83)
  await removePhoto(job.id, photo.id, start)
  await changeBinRules({ keepDays: 1, originalDays: 0 })
  const sendings = Array.from({ length: 6 }, () => sent(job.id, 83))
  const emptyings = [emptyWholeBin(start), emptyWholeBin(day(1))]
  await Promise.all([...sendings, ...emptyings])
  const db = await database()
  const kept = await db.photo.count({ where: { sha256: photo.sha256 } })
  expect(await isOnDisk(photo.sha256)).toBe(kept > 0)
  expect(await findings()).toEqual([])
})

test('an original that is off the record and has gone already is no finding, and one that nobody released still is', async () => {
  const job = await makeJob()
  const photo = await sent(job.id, 84)
  await removePhoto(job.id, photo.id, start)
  await emptyWholeBin(start)
  const { originals } = await openDataFolder()
  expect(existsSync(path.join(originals, photo.sha256.slice(0, 2)))).toBe(true)
  const stray = 'ab'.repeat(32)
  writeFileSync(path.join(originals, photo.sha256.slice(0, 2), stray), 'x')
  expect(await findings()).toEqual([expect.stringContaining(stray)])
})
