import path from 'node:path'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { readCameras } from '#services/cameras/cameras'
import {
  learnClockFromSatellite,
  learnClockFromSameMoment,
  learnClockFromShownTime,
  suggestClocks,
} from '#services/cameras/learn-clock'
import { database } from '#services/database/open-database'
import { openPicture } from '#services/renditions/open-picture'
import { renditionsIdle } from '#services/renditions/renditions'
import { makeJob, makeStep } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

// Camera B of the demo: 67 minutes slow, no offset. In Europe/London, on summer time: 10:24:40 on its clock was
// 11:31:40 there and 10:31:40 UTC.
const cameraB = { make: 'Alder', model: 'Camera B', serial: 'B-0002' }
const slow = 67 * 60
const place = ['51/1 30/1 0/1', '0/1 7/1 0/1'] as const

async function cameraOf(photoId: string): Promise<string> {
  const db = await database()
  const row = await db.photo.findUniqueOrThrow({ where: { id: photoId } })
  return row.cameraId ?? ''
}

async function keep(...photos: readonly Uint8Array[]) {
  const job = await makeJob()
  const sent = photos.map((bytes, index): [string, Uint8Array] => [
    `${String(index)}.jpg`,
    bytes,
  ])
  const kept = await sendPhotos(job.id, sent)
  await renditionsIdle()
  return kept.photos
}

async function takenAt(photoId: string): Promise<string> {
  const db = await database()
  const row = await db.photo.findUniqueOrThrow({ where: { id: photoId } })
  return row.takenAt.toISOString()
}

describe('the clock of a camera is learnt', () => {
  test('from satellite time in its photos, and corrects those without it too', async () => {
    const [one, , plain] = await keep(
      await makePhoto({
        ...cameraB,
        taken: '2026:10:22 10:24:40',
        // A fix 4 seconds old.
        satellite: ['2026:10:22', '10/1 31/1 36/1'],
        place,
      }),
      await makePhoto({
        ...cameraB,
        taken: '2026:10:22 11:24:40',
        // Nine minutes and 56 seconds old.
        satellite: ['2026:10:22', '11/1 21/1 44/1'],
        place,
      }),
      await makePhoto({ ...cameraB, taken: '2026:10:22 12:24:40' }),
    )
    const camera = await cameraOf(one?.id ?? '')
    const [suggestion] = await suggestClocks()
    expect(suggestion).toMatchObject({
      cameraId: camera,
      cameraName: 'Alder Camera B',
      from: 'satellite',
    })
    const learnt = await learnClockFromSatellite(camera)
    if (!learnt.ok) throw new Error(learnt.refusal.detail)
    const { correctionSeconds, uncertaintySeconds } = learnt.value.clock
    expect(Math.abs(correctionSeconds - slow)).toBeLessThanOrEqual(
      uncertaintySeconds,
    )
    expect(uncertaintySeconds).toBeLessThanOrEqual(6)
    expect(learnt.value.photoCount).toBe(3)
    const apart =
      Date.parse(await takenAt(plain?.id ?? '')) -
      Date.parse('2026-10-22T12:31:40Z')
    expect(Math.abs(apart)).toBeLessThanOrEqual(uncertaintySeconds * 1000)
    expect(await suggestClocks()).toEqual([])
  })

  test('from a photo of a phone that shows the time', async () => {
    const [photo] = await keep(
      await makePhoto({ ...cameraB, taken: '2026:10:22 10:24:40' }),
    )
    // The phone shows 11:31, so it was 11:31:00 to 11:31:59 in London.
    const learnt = await learnClockFromShownTime(photo?.id ?? '', {
      at: instant(Date.parse('2026-10-22T11:31:00+01:00')),
      to: 'minute',
    })
    if (!learnt.ok) throw new Error(learnt.refusal.detail)
    const { correctionSeconds, uncertaintySeconds } = learnt.value.clock
    expect(Math.abs(correctionSeconds - slow)).toBeLessThanOrEqual(
      uncertaintySeconds,
    )
    expect(uncertaintySeconds).toBeLessThanOrEqual(31)
    expect((await readCameras())[0]?.clock).toEqual(learnt.value.clock)
  })

  test('from a photo of the same thing by a phone that is trusted', async () => {
    const scene = await openPicture(
      readFileSync(path.join('prisma/demo/photos/job-a/01-before-front.jpg')),
    )
      .autoOrient()
      .resize(700)
      .png()
      .toBuffer()
    const shot = (
      make: string,
      model: string,
      taken: string,
      offset?: string,
    ) =>
      openPicture(scene)
        .withExif({
          IFD0: { Make: make, Model: model },
          IFD2: {
            DateTimeOriginal: taken,
            ...(offset === undefined ? {} : { OffsetTimeOriginal: offset }),
          },
        })
        .jpeg({ quality: make === 'Alder' ? 70 : 90 })
        .toBuffer()
    const [photo, trusted] = await keep(
      await shot('Alder', 'Camera B', '2026:10:22 10:24:40'),
      // Eight seconds later.
      await shot('Birch', 'Phone', '2026:10:22 11:31:48', '+01:00'),
    )
    const ids = [photo?.id ?? '', trusted?.id ?? ''] as const
    expect(await suggestClocks()).toMatchObject([
      { from: 'same-moment', photoId: ids[0], otherPhotoId: ids[1] },
    ])
    // A step looks alike from its first photo to its last.
    const db = await database()
    const row = await db.photo.findUniqueOrThrow({ where: { id: ids[0] } })
    const surfaces = await db.surface.findMany({
      where: { piece: { jobId: row.jobId } },
    })
    const asWork = await makeStep(
      row.jobId,
      'strip',
      surfaces.map((surface) => surface.id),
    )
    const place = (stepId: string | null) =>
      db.$transaction([
        db.photo.updateMany({
          where: { id: { in: [...ids] } },
          data: { stepId },
        }),
      ])
    await place(asWork)
    expect(await suggestClocks()).toEqual([])
    await place(null)
    const learnt = await learnClockFromSameMoment(...ids, 20)
    if (!learnt.ok) throw new Error(learnt.refusal.detail)
    const { correctionSeconds, uncertaintySeconds } = learnt.value.clock
    expect(Math.abs(correctionSeconds - slow)).toBeLessThanOrEqual(
      uncertaintySeconds,
    )
    expect(uncertaintySeconds).toBeLessThanOrEqual(22)
  })
})

describe('the clock of a camera is not learnt', () => {
  test('from satellite time that another zone would explain', async () => {
    // A phone that is right, in New York: four hours behind UTC that day (IANA time zone data).
    await keep(
      await makePhoto({
        ...cameraB,
        taken: '2026:10:22 06:31:40',
        satellite: ['2026:10:22', '10/1 31/1 38/1'],
        place,
      }),
    )
    expect(await suggestClocks()).toEqual([])
  })

  test('from photos that do not say', async () => {
    const [bare, dated] = await keep(
      await makePhoto({ ...cameraB, width: 31 }),
      await makePhoto({ ...cameraB, taken: '2026:10:22 10:24:40' }),
    )
    const shown = { at: instant(0), to: 'minute' } as const
    const camera = await cameraOf(dated?.id ?? '')
    const refusals = [
      await learnClockFromShownTime('nothing', shown),
      await learnClockFromShownTime(bare?.id ?? '', shown),
      await learnClockFromSatellite(camera),
      await learnClockFromSameMoment(dated?.id ?? '', bare?.id ?? ''),
      await learnClockFromSameMoment(dated?.id ?? '', 'nothing'),
      await learnClockFromSameMoment(dated?.id ?? '', bare?.id ?? '', -1),
    ]
    expect(refusals.map((one) => one.ok)).toEqual(refusals.map(() => false))
    expect((await readCameras())[0]).not.toHaveProperty('clock')
  })
})
