import ExifReader from 'exifreader'
import { readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { setImmediate } from 'node:timers/promises'
import { describe, expect, test } from 'vitest'
import { database, openDataFolder } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import {
  type RenditionName,
  renditionNames,
} from '#core/photos/rendition-sizes'
import { openPicture } from '#services/renditions/open-picture'
import { readPhotoFile } from '#services/renditions/read-photo-file'
import {
  inTurn,
  readRendition,
  renditionsAtOnce,
  renditionsIdle,
  resumeRenditions,
} from '#services/renditions/renditions'
import { flawWarning } from '#services/renditions/warn-of-damage'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const demoPhoto = path.join('prisma/demo/photos/job-a/10-primer-1-front.jpg')

async function keepOne(bytes: Uint8Array) {
  const job = await makeJob()
  const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]])
  const [photo] = photos
  if (photo === undefined) throw new Error('the photo was not kept')
  return photo
}

async function rendition(sha256: string, name: RenditionName): Promise<Buffer> {
  const made = await readRendition(sha256, name)
  if (!made.ok) throw new Error(made.refusal.detail)
  const bytes = readFileSync(made.value.path)
  expect(bytes.byteLength).toBe(made.value.byteLength)
  return bytes
}

/** The mean colour of a part of a picture, given as shares of its width and height. */
async function colourAt(bytes: Buffer, x: number, y: number) {
  const { width, height } = await openPicture(bytes).metadata()
  const { channels } = await openPicture(
    await openPicture(bytes)
      .extract({
        left: Math.floor(x * width),
        top: Math.floor(y * height),
        width: 4,
        height: 4,
      })
      .png()
      .toBuffer(),
  ).stats()
  return channels.map((channel) => Math.round(channel.mean))
}

describe('renditions', () => {
  test.each([
    ['thumb', 320, 240],
    ['card', 800, 600],
    ['screen', 1440, 1080],
    ['zoom', 2880, 2160],
  ] as const)(
    '%s is %d pixels on its long side',
    async (name, width, height) => {
      const photo = await keepOne(
        await makePhoto({ width: 3200, height: 2400 }),
      )
      const bytes = await rendition(photo.sha256, name)
      expect(await openPicture(bytes).metadata()).toMatchObject({
        format: 'webp',
        width,
        height,
        space: 'srgb',
      })
    },
  )

  test('are never larger than the original', async () => {
    const photo = await keepOne(await makePhoto({ width: 400, height: 300 }))
    for (const name of ['screen', 'zoom'] as const) {
      const bytes = await rendition(photo.sha256, name)
      expect(await openPicture(bytes).metadata()).toMatchObject({ width: 400 })
    }
  })

  // Exif 2.32 (CIPA DC-008-2019) section 4.6.4, tag 0x0112: where row 0 and column 0 of the stored picture belong.
  // Stored, the left half is light and the right half dark.
  test.each([
    [1, 'left'],
    [2, 'right'],
    [3, 'right'],
    [4, 'left'],
    [5, 'top'],
    [6, 'top'],
    [7, 'bottom'],
    [8, 'bottom'],
  ])('of orientation %d have the light half %s', async (orientation, side) => {
    const photo = await keepOne(
      await makePhoto({ width: 400, height: 300, orientation }),
    )
    const bytes = await rendition(photo.sha256, 'screen')
    const places = {
      left: [0.2, 0.5],
      right: [0.8, 0.5],
      top: [0.5, 0.2],
      bottom: [0.5, 0.8],
    } as const
    const light = await Promise.all(
      Object.entries(places).map(async ([name, [x, y]]) => {
        const [red = 0] = await colourAt(bytes, x, y)
        return red > 150 ? name : ''
      }),
    )
    expect(light).toContain(side)
    const [width, height] = orientation > 4 ? [300, 400] : [400, 300]
    expect(await openPicture(bytes).metadata()).toMatchObject({ width, height })
    expect(photo).toMatchObject({ width, height })
  })

  test('carry no place, no camera, no time: no metadata at all', async () => {
    const original = readFileSync(demoPhoto)
    // The original does: otherwise this test could not fail.
    expect(Object.keys(ExifReader.load(original))).toContain('DateTimeOriginal')
    const photo = await keepOne(original)
    for (const name of renditionNames) {
      const bytes = await rendition(photo.sha256, name)
      const found = await openPicture(bytes).metadata()
      expect(found.exif).toBeUndefined()
      expect(found.xmp).toBeUndefined()
      expect(found.iptc).toBeUndefined()
      expect(found.orientation).toBeUndefined()
      expect(bytes.includes('Exif')).toBe(false)
      expect(bytes.includes('EXIF')).toBe(false)
    }
  })

  test('look like the original', async () => {
    const original = readFileSync(demoPhoto)
    const photo = await keepOne(original)
    const bytes = await rendition(photo.sha256, 'screen')
    const [made, wanted] = await Promise.all(
      [openPicture(bytes), openPicture(original).autoOrient()].map((picture) =>
        picture.resize(144, 108, { fit: 'fill' }).raw().toBuffer(),
      ),
    )
    const differences = [...(made ?? [])].map((value, index) =>
      Math.abs(value - (wanted?.[index] ?? 0)),
    )
    const mean =
      differences.reduce((sum, one) => sum + one, 0) / differences.length
    // Mean absolute difference of the samples, out of 255, of two pictures reduced to a tenth.
    expect(mean).toBeLessThan(2)
  })

  test('that are lost are made again from the original', async () => {
    const photo = await keepOne(await makePhoto())
    await renditionsIdle()
    const before = await rendition(photo.sha256, 'thumb')
    const { renditions } = await openDataFolder()
    rmSync(renditions, { recursive: true })
    expect((await rendition(photo.sha256, 'thumb')).equals(before)).toBe(true)
  })

  test('that a power cut left empty are made again', async () => {
    const photo = await keepOne(await makePhoto())
    await renditionsIdle()
    const made = await readRendition(photo.sha256, 'thumb')
    if (!made.ok) throw new Error(made.refusal.detail)
    writeFileSync(made.value.path, '')
    const again = await rendition(photo.sha256, 'thumb')
    expect(again.byteLength).toBeGreaterThan(0)
  })

  test('that were not finished when the program ended are gone on with at its next start', async () => {
    const photo = await keepOne(await makePhoto())
    await keepOne(await makePhoto({ width: 65 }))
    await renditionsIdle()
    const made = await readRendition(photo.sha256, 'thumb')
    if (!made.ok) throw new Error(made.refusal.detail)
    rmSync(made.value.path)
    expect(await resumeRenditions()).toBe(1)
    await renditionsIdle()
    expect(readFileSync(made.value.path).byteLength).toBeGreaterThan(0)
    expect(await resumeRenditions()).toBe(0)
  })

  test('leave no half-written file beside them', async () => {
    await keepOne(await makePhoto())
    await renditionsIdle()
    const { renditions } = await openDataFolder()
    const files = readdirSync(renditions, {
      recursive: true,
      withFileTypes: true,
    })
      .filter((entry) => entry.isFile())
      .map((entry) => path.extname(entry.name))
    expect(files).toEqual(renditionNames.map(() => '.webp'))
  })

  test('of a picture that is damaged inside show what can be shown, and the owner is told once', async () => {
    const bytes = Buffer.from(readFileSync(demoPhoto))
    // Half-way down in the coded data, so that all markers are still there.
    const half = Math.floor(bytes.byteLength / 2)
    bytes.fill(0xaa, half, half + 4000)
    const photo = await keepOne(bytes)
    expect(photo.warnings).toEqual([])
    const made = await rendition(photo.sha256, 'screen')
    expect(await openPicture(made).metadata()).toMatchObject({ width: 1440 })
    await renditionsIdle()
    const { renditions } = await openDataFolder()
    rmSync(renditions, { recursive: true })
    await rendition(photo.sha256, 'thumb')
    const row = await (
      await database()
    ).photo.findFirstOrThrow({
      include: { job: true },
    })
    expect(JSON.parse(row.warnings)).toEqual([flawWarning])
    // Raised by the photo's arrival and by its flaw.
    expect(row.job.revision).toBe(2)
  })

  test('of a photo whose original is gone are refused with what to do', async () => {
    const photo = await keepOne(await makePhoto())
    await renditionsIdle()
    const { renditions } = await openDataFolder()
    rmSync(renditions, { recursive: true })
    rmSync((await openPhotoStore()).path(photo.sha256))
    expect(await readRendition(photo.sha256, 'thumb')).toMatchObject({
      refusal: { kind: 'not-found' },
    })
  })
})

describe('other work on decoded photos', () => {
  test('waits its turn, so that no more are decoded at once', async () => {
    let working = 0
    let most = 0
    const results = await Promise.all(
      [1, 2, 3, 4, 5].map((number) =>
        inTurn(async () => {
          working += 1
          most = Math.max(most, working)
          await setImmediate()
          working -= 1
          return number * 10
        }),
      ),
    )
    expect(results).toEqual([10, 20, 30, 40, 50])
    expect(most).toBe(renditionsAtOnce)
  })

  test('hands its failure to whoever asked, and the next has its turn', async () => {
    const failing = inTurn(() => Promise.reject(new Error('no paper')))
    const next = inTurn(() => Promise.resolve('drawn'))
    await expect(failing).rejects.toThrow('no paper')
    expect(await next).toBe('drawn')
    await renditionsIdle()
  })
})

describe('a photo file', () => {
  test('as its original has the bytes and the type that were found', async () => {
    const bytes = await makePhoto({}, 'png')
    const photo = await keepOne(bytes)
    const file = await readPhotoFile(photo.id, 'original')
    if (!file.ok) throw new Error(file.refusal.detail)
    expect(file.value).toMatchObject({
      mediaType: 'image/png',
      byteLength: bytes.byteLength,
      tag: photo.sha256,
    })
    const chunks: Buffer[] = []
    for await (const chunk of file.value.open()) {
      if (chunk instanceof Uint8Array) chunks.push(Buffer.from(chunk))
    }
    expect(Buffer.concat(chunks).equals(bytes)).toBe(true)
  })

  test.each([
    ['no-such-photo', 'thumb'],
    ['', 'poster'],
  ])('of %s as %s does not exist', async (id, form) => {
    const photo = await keepOne(await makePhoto())
    expect(await readPhotoFile(id === '' ? photo.id : id, form)).toMatchObject({
      refusal: { kind: 'not-found' },
    })
  })

  test('of a photo that was removed does not exist', async () => {
    const photo = await keepOne(await makePhoto())
    await (await database()).photo.delete({ where: { id: photo.id } })
    expect((await readPhotoFile(photo.id, 'thumb')).ok).toBe(false)
  })
})
