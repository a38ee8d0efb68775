import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readLastChange, undoChange } from '#services/changes/changes'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { readJournal } from '#services/journal/read-journal'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { turnPhoto } from '#services/photos/turn-photo'
import { openPicture } from '#services/renditions/open-picture'
import { readPhotoFile } from '#services/renditions/read-photo-file'
import { makeSheet } from '#services/sheets/make-sheet'
import { makeHeic } from '../../support/make-heic'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function keepOne(bytes: Uint8Array) {
  const job = await makeJob()
  const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]])
  const [photo] = photos
  if (photo === undefined) throw new Error('the photo was not kept')
  return { job, photo, bytes }
}

async function shown(photoId: string): Promise<Buffer> {
  const file = await readPhotoFile(photoId, 'screen')
  if (!file.ok) throw new Error(file.refusal.detail)
  const chunks: Buffer[] = []
  for await (const chunk of file.value.open()) {
    if (chunk instanceof Uint8Array) chunks.push(Buffer.from(chunk))
  }
  return Buffer.concat(chunks)
}

/** On which side the light half of a made photo is. */
async function lightSide(bytes: Buffer): Promise<string> {
  const { width, height } = await openPicture(bytes).metadata()
  const places = {
    left: [0.15, 0.5],
    right: [0.85, 0.5],
    top: [0.5, 0.15],
    bottom: [0.5, 0.85],
  } as const
  const sides: string[] = []
  for (const [side, [x, y]] of Object.entries(places)) {
    const pixel = await openPicture(bytes)
      .extract({
        left: Math.floor(x * width),
        top: Math.floor(y * height),
        width: 1,
        height: 1,
      })
      .raw()
      .toBuffer()
    if ((pixel[0] ?? 0) > 150) sides.push(side)
  }
  // Where the halves stand side by side, the two middles are on the seam or in either half.
  const across = sides.includes('left') !== sides.includes('right')
  return (
    sides.find((side) =>
      across
        ? ['left', 'right'].includes(side)
        : ['top', 'bottom'].includes(side),
    ) ?? ''
  )
}

describe('a photo turned by hand', () => {
  // A quarter turn clockwise takes the left side to the top, the top to the right.
  test.each([
    [1, 'top', 300, 400],
    [2, 'right', 400, 300],
    [3, 'bottom', 300, 400],
    [-1, 'bottom', 300, 400],
    [4, 'left', 400, 300],
  ])('%d times shows its left side %s', async (turns, side, width, height) => {
    const { job, photo } = await keepOne(
      await makePhoto({ width: 400, height: 300 }),
    )
    expect((await turnPhoto(photo.id, turns)).ok).toBe(true)
    const screen = await shown(photo.id)
    expect(await lightSide(screen)).toBe(side)
    expect(await openPicture(screen).metadata()).toMatchObject({
      width,
      height,
    })
    expect((await readJournal(job.id))?.photos[0]).toMatchObject({
      width,
      height,
    })
  })

  test('is turned back by undoing it, and so are its renditions', async () => {
    const { job, photo } = await keepOne(
      await makePhoto({ width: 400, height: 300 }),
    )
    await turnPhoto(photo.id, 1)
    expect(await lightSide(await shown(photo.id))).toBe('top')
    const last = await readLastChange(job.id, now())
    expect(last).toMatchObject({ kind: 'photo-turned', photoIds: [photo.id] })
    expect(await undoChange(job.id, last?.id ?? '', now())).toMatchObject({
      ok: true,
    })
    expect(await lightSide(await shown(photo.id))).toBe('left')
    expect((await readJournal(job.id))?.photos[0]).toMatchObject({
      width: 400,
      height: 300,
    })
  })

  test('is turned on from where its camera thought up was', async () => {
    // Exif orientation 6: stored left is shown on top. A quarter turn more brings it to the right.
    const { photo } = await keepOne(
      await makePhoto({ width: 400, height: 300, orientation: 6 }),
    )
    await turnPhoto(photo.id, 1)
    expect(await lightSide(await shown(photo.id))).toBe('right')
  })

  test('in HEIC as in any other kind', async () => {
    const { photo } = await keepOne(makeHeic({ turns: 3 }))
    await turnPhoto(photo.id, 1)
    expect(await lightSide(await shown(photo.id))).toBe('right')
  })

  test('leaves its original as it was, and is asked for anew by its job', async () => {
    const { job, photo, bytes } = await keepOne(await makePhoto())
    await turnPhoto(photo.id, 1)
    await turnPhoto(photo.id, 1)
    const kept = readFileSync((await openPhotoStore()).path(photo.sha256))
    expect(createHash('sha256').update(kept).digest('hex')).toBe(
      createHash('sha256').update(bytes).digest('hex'),
    )
    const db = await database()
    const row = await db.job.findUniqueOrThrow({ where: { id: job.id } })
    expect(row.revision).toBe(3)
  })

  test('has another tag, so that no browser shows the old one', async () => {
    const { photo } = await keepOne(await makePhoto())
    const tag = async () => {
      const file = await readPhotoFile(photo.id, 'thumb')
      return file.ok ? [file.value.tag, file.value.settled] : []
    }
    const before = await tag()
    await turnPhoto(photo.id, 1)
    expect(await tag()).not.toEqual(before)
    expect(before[1]).toBe(false)
  })

  test('is turned on the sheet', async () => {
    const job = await makeJob()
    const made = await makePhoto({ width: 400, height: 300 })
    const other = await makePhoto({ width: 401, height: 300 })
    const before = await sendPhotos(
      job.id,
      [['b.jpg', made]],
      [
        ['role', 'before'],
        ['view', 'front'],
      ],
    )
    await sendPhotos(
      job.id,
      [['a.jpg', other]],
      [
        ['role', 'after'],
        ['view', 'front'],
      ],
    )
    const plain = await makeSheet(job.id, '1x1', 'png')
    await turnPhoto(before.photos[0]?.id ?? '', 2)
    const turned = await makeSheet(job.id, '1x1', 'png')
    if (!plain.ok || !turned.ok) throw new Error('no sheet')
    expect(turned.value.bytes.equals(plain.value.bytes)).toBe(false)
  })

  test('is refused when there is none, or the turns are no turns', async () => {
    expect(await turnPhoto('nobody', 1)).toMatchObject({
      refusal: { kind: 'not-found' },
    })
    const { photo } = await keepOne(await makePhoto())
    expect(await turnPhoto(photo.id, 0.5)).toMatchObject({
      refusal: { kind: 'invalid' },
    })
  })
})
