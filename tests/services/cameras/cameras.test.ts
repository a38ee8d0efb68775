import { readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { readCameras, setCameraClock } from '#services/cameras/cameras'
import { typePhotoTime } from '#services/cameras/photo-times'
import { database } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function stateOf(jobId: string) {
  const db = await database()
  const job = await db.job.findUniqueOrThrow({
    where: { id: jobId },
    include: { photos: { orderBy: { fileName: 'asc' } } },
  })
  return {
    revision: job.revision,
    photos: job.photos.map((photo) => ({
      earliest: photo.takenEarliest.toISOString(),
      at: photo.takenAt.toISOString(),
      latest: photo.takenLatest.toISOString(),
      basis: photo.takenBasis,
      warnings: photo.warnings,
    })),
  }
}

const cameraB = { make: 'Alder', model: 'Camera B', serial: 'B-0002' }

async function cameraId(): Promise<string> {
  const [camera] = await readCameras()
  if (camera === undefined) throw new Error('no camera was recorded')
  return camera.id
}

describe('the clock of a camera', () => {
  const slow = { correctionSeconds: 67 * 60, uncertaintySeconds: 20 }

  test('once known corrects all its photos, earlier and later, and no other', async () => {
    const job = await makeJob()
    await sendPhotos(job.id, [
      ['1.jpg', await makePhoto({ ...cameraB, taken: '2026:10:22 10:24:40' })],
      [
        '2.jpg',
        await makePhoto({
          make: 'Alder',
          model: 'Phone A',
          taken: '2026:10:22 10:24:40',
        }),
      ],
    ])
    const before = await stateOf(job.id)
    const id = (await readCameras()).find((one) => one.serial === 'B-0002')?.id
    expect(await setCameraClock(id ?? '', slow)).toMatchObject({
      value: { photoCount: 1 },
    })
    await sendPhotos(job.id, [
      ['3.jpg', await makePhoto({ ...cameraB, taken: '2026:10:25 08:33:18' })],
    ])
    const after = await stateOf(job.id)
    // True times by the manifest of the demo photos: 10:31:40 and 09:40:18 UTC.
    expect(after.photos).toMatchObject([
      {
        earliest: '2026-10-22T10:31:20.000Z',
        at: '2026-10-22T10:31:40.000Z',
        latest: '2026-10-22T10:32:00.999Z',
      },
      { at: before.photos[1]?.at },
      { at: '2026-10-25T09:40:18.000Z' },
    ])
    expect(after.revision).toBe(before.revision + 2)
  })

  test('forgotten again leaves what there was', async () => {
    const job = await makeJob()
    await sendPhotos(job.id, [
      [
        '1.jpg',
        await makePhoto({
          ...cameraB,
          taken: '2026:10:22 10:24:40',
          subSeconds: '13',
        }),
      ],
    ])
    const before = await stateOf(job.id)
    const id = await cameraId()
    await setCameraClock(id, slow)
    expect((await stateOf(job.id)).photos).not.toEqual(before.photos)
    await setCameraClock(id, null)
    expect((await stateOf(job.id)).photos).toEqual(before.photos)
  })

  test('never touches an original', async () => {
    const job = await makeJob()
    const bytes = readFileSync(
      path.join('prisma/demo/photos/job-a/09-scuffed-both.jpg'),
    )
    const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]])
    await setCameraClock(await cameraId(), slow)
    const store = await openPhotoStore()
    const kept = readFileSync(store.path(photos[0]?.sha256 ?? ''))
    expect(kept.equals(bytes)).toBe(true)
    // The manifest of the demo photos: this one was taken at 10:31:40.137 UTC.
    expect((await stateOf(job.id)).photos[0]?.at).toBe(
      '2026-10-22T10:31:40.137Z',
    )
  })

  test('does not overrule a time that was typed', async () => {
    const job = await makeJob()
    const { photos } = await sendPhotos(job.id, [
      ['1.jpg', await makePhoto({ ...cameraB, taken: '2026:10:22 10:24:40' })],
    ])
    await typePhotoTime(photos[0]?.id ?? '', {
      at: instant(Date.parse('2026-10-22T11:00:00Z')),
      uncertaintySeconds: 60,
    })
    await setCameraClock(await cameraId(), slow)
    expect((await stateOf(job.id)).photos[0]).toMatchObject({
      earliest: '2026-10-22T10:59:00.000Z',
      at: '2026-10-22T11:00:00.000Z',
      latest: '2026-10-22T11:01:00.000Z',
      basis: 'typed',
    })
  })

  test.each([
    [{ correctionSeconds: 0.5, uncertaintySeconds: 0 }],
    [{ correctionSeconds: NaN, uncertaintySeconds: 0 }],
    [{ correctionSeconds: 60, uncertaintySeconds: -1 }],
    [{ correctionSeconds: 1e12, uncertaintySeconds: 0 }],
  ])('%o is refused', async (clock) => {
    const job = await makeJob()
    await sendPhotos(job.id, [['1.jpg', await makePhoto(cameraB)]])
    expect(await setCameraClock(await cameraId(), clock)).toMatchObject({
      refusal: { kind: 'invalid' },
    })
  })

  test('of an unknown camera is refused', async () => {
    expect(await setCameraClock('nobody', slow)).toMatchObject({
      refusal: { kind: 'not-found' },
    })
  })
})

describe('a time that the owner types', () => {
  test('wins, and taken back gives way to what the photo says', async () => {
    const job = await makeJob()
    const { photos } = await sendPhotos(job.id, [['1.png', await makePhoto()]])
    const before = await stateOf(job.id)
    expect(before.photos[0]?.warnings).toContain('Capture time')
    const id = photos[0]?.id ?? ''
    const at = instant(Date.parse('2026-10-22T11:00:00Z'))
    expect(await typePhotoTime(id, { at })).toEqual({
      ok: true,
      value: { earliest: at, at, latest: at },
    })
    const typed = await stateOf(job.id)
    expect(typed.revision).toBe(before.revision + 1)
    expect(typed.photos[0]?.basis).toBe('typed')
    // The time is no longer in doubt; what was said about the file stays.
    expect(typed.photos[0]?.warnings).not.toContain('Capture time')
    expect(typed.photos[0]?.warnings).toContain('by its content it is JPEG')
    await typePhotoTime(id, null)
    expect((await stateOf(job.id)).photos).toEqual(before.photos)
  })

  test('for an unknown photo is refused', async () => {
    expect(await typePhotoTime('nothing', null)).toMatchObject({
      refusal: { kind: 'not-found' },
    })
  })
})

test('a camera is named once, by make, model and serial number', async () => {
  const job = await makeJob()
  await sendPhotos(job.id, [
    ['1.jpg', await makePhoto({ ...cameraB, width: 30 })],
    ['2.jpg', await makePhoto({ ...cameraB, width: 31 })],
    ['3.jpg', await makePhoto({ ...cameraB, serial: 'B-0003' })],
    ['4.jpg', await makePhoto({ make: 'Alder', model: 'ALDER Phone A' })],
    ['5.jpg', await makePhoto({ width: 33 })],
  ])
  const cameras = await readCameras()
  expect(
    cameras.map(({ name, serial, photoCount }) => [name, serial, photoCount]),
  ).toEqual([
    ['ALDER Phone A', '', 1],
    ['Alder Camera B', 'B-0002', 2],
    ['Alder Camera B', 'B-0003', 1],
  ])
})
