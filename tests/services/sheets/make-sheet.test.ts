import ExifReader from 'exifreader'
import { readFileSync } from 'node:fs'
import path from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { sheetDesigns, sheetElements } from '#core/sheets/sheet-design'
import { newPicture, openPicture } from '#services/renditions/open-picture'
import { makeSheet } from '#services/sheets/make-sheet'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const orange = { r: 220, g: 120, b: 40 }
const teal = { r: 20, g: 110, b: 120 }
let jobId = ''
let beforeId = ''
let afterId = ''

async function sendOne(
  bytes: Uint8Array,
  role: string,
  view: string,
): Promise<string> {
  const { photos } = await sendPhotos(
    jobId,
    [['a.jpg', bytes]],
    [
      ['role', role],
      ['view', view],
    ],
  )
  return photos[0]?.id ?? ''
}

async function solid(colour: { r: number; g: number; b: number }) {
  return newPicture({
    create: { width: 1200, height: 900, channels: 3, background: colour },
  })
    .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
    .toBuffer()
}

async function sheet(...args: Parameters<typeof makeSheet>): Promise<Buffer> {
  const made = await makeSheet(...args)
  if (!made.ok) throw new Error(made.refusal.detail)
  return made.value.bytes
}

async function samples(bytes: Buffer) {
  const { data, info } = await openPicture(bytes)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data, ...info }
}

/** The share of a sheet's pixels that are near a colour. */
async function shareOf(
  bytes: Buffer,
  colour: { r: number; g: number; b: number },
): Promise<number> {
  const { data, width, height } = await samples(bytes)
  let near = 0
  for (let at = 0; at < data.length; at += 3) {
    const apart =
      Math.abs((data[at] ?? 0) - colour.r) +
      Math.abs((data[at + 1] ?? 0) - colour.g) +
      Math.abs((data[at + 2] ?? 0) - colour.b)
    if (apart < 24) near += 1
  }
  return near / (width * height)
}

beforeEach(async () => {
  jobId = (await makeJob('Oak sideboard')).id
  beforeId = await sendOne(await solid(orange), 'before', 'front')
  afterId = await sendOne(await solid(teal), 'after', 'Front')
})

describe('a sheet', () => {
  test.each([
    ['1x1', 'jpg', 'jpeg', 1080, 1080],
    ['1x1', 'png', 'png', 1080, 1080],
    ['4x5', 'jpg', 'jpeg', 1080, 1350],
    ['9x16', 'png', 'png', 1080, 1920],
    ['16x9', 'webp', 'webp', 1920, 1080],
    ['16x9', 'jpg', 'jpeg', 1920, 1080],
  ] as const)(
    '%s as %s is a %s of %d x %d',
    async (shape, ending, format, width, height) => {
      const made = await makeSheet(jobId, shape, ending)
      if (!made.ok) throw new Error(made.refusal.detail)
      expect(made.value.mediaType).toBe(`image/${format}`)
      expect(made.value.fileName).toBe(`oak-sideboard-${shape}-quiet.${ending}`)
      expect(await openPicture(made.value.bytes).metadata()).toMatchObject({
        format,
        width,
        height,
      })
    },
  )

  test('comes smaller to be looked at first, and is the same picture', async () => {
    const made = await makeSheet(jobId, '4x5', 'png', {}, 540)
    if (!made.ok) throw new Error(made.refusal.detail)
    expect(await openPicture(made.value.bytes).metadata()).toMatchObject({
      format: 'png',
      width: 540,
      height: 675,
    })
    expect(made.value.fileName).toBe('oak-sideboard-4x5-quiet-540.png')
    const whole = await sheet(jobId, '4x5', 'png')
    for (const colour of [orange, teal])
      expect(await shareOf(made.value.bytes, colour)).toBeCloseTo(
        await shareOf(whole, colour),
        2,
      )
  })

  test('shows both pictures equally large, and they fill most of it', async () => {
    for (const shape of ['1x1', '16x9'] as const) {
      const bytes = await sheet(jobId, shape, 'png')
      const before = await shareOf(bytes, orange)
      const after = await shareOf(bytes, teal)
      expect(Math.abs(before - after)).toBeLessThan(0.002)
      // More than half: no more than two sevenths are cut off a photo to fill more.
      expect(before + after).toBeGreaterThan(0.5)
    }
  })

  test('shows before on the left or above, after on the right or below', async () => {
    const wide = await openPicture(await sheet(jobId, '16x9', 'png'))
      .extract({ left: 0, top: 0, width: 960, height: 1080 })
      .png()
      .toBuffer()
    expect(await shareOf(wide, orange)).toBeGreaterThan(0.5)
    expect(await shareOf(wide, teal)).toBeLessThan(0.01)
  })

  test('shows the photos that are chosen instead', async () => {
    const other = await sendOne(
      await solid({ r: 240, g: 240, b: 10 }),
      'progress',
      'low',
    )
    const bytes = await sheet(jobId, '1x1', 'png', {
      before: other,
      after: afterId,
    })
    expect(await shareOf(bytes, { r: 240, g: 240, b: 10 })).toBeGreaterThan(0.2)
    expect(await shareOf(bytes, orange)).toBeLessThan(0.01)
    expect(beforeId).not.toBe(other)
  })

  test.each(
    sheetDesigns.flatMap((design) =>
      (['light', 'dark'] as const).map((ground) => [design, ground] as const),
    ),
  )(
    'in the design %s on %s ground shows both photos and its words',
    async (design, ground) => {
      const bytes = await sheet(jobId, '1x1', 'png', {
        design,
        ground,
        elements: sheetElements,
      })
      expect(await shareOf(bytes, orange)).toBeGreaterThan(0.15)
      expect(await shareOf(bytes, teal)).toBeGreaterThan(0.15)
      const bare = await sheet(jobId, '1x1', 'png', {
        design,
        ground,
        elements: [],
      })
      expect(await shareOf(bare, orange)).toBeGreaterThan(
        await shareOf(bytes, orange),
      )
    },
  )

  test('is the same picture each time', async () => {
    const [one, other] = [
      await sheet(jobId, '1x1', 'png'),
      await sheet(jobId, '1x1', 'png'),
    ]
    expect(one.equals(other)).toBe(true)
  })

  test('is upright though the photo is stored on its side', async () => {
    const demo = (await makeJob('Turned')).id
    jobId = demo
    const turned = await openPicture(await solid(orange))
      .composite([
        {
          input: await newPicture({
            create: { width: 1200, height: 450, channels: 3, background: teal },
          })
            .png()
            .toBuffer(),
          left: 0,
          top: 0,
        },
      ])
      .withMetadata({ orientation: 3 })
      .jpeg()
      .toBuffer()
    await sendOne(turned, 'before', 'front')
    await sendOne(await solid({ r: 9, g: 9, b: 9 }), 'after', 'front')
    const bytes = await sheet(demo, '16x9', 'png')
    // Turned by half: the teal half that is stored above belongs below.
    const upper = await openPicture(bytes)
      .extract({ left: 0, top: 0, width: 960, height: 400 })
      .png()
      .toBuffer()
    expect(await shareOf(upper, orange)).toBeGreaterThan(0.5)
    expect(await shareOf(upper, teal)).toBeLessThan(0.02)
  })
})

describe('no sheet', () => {
  test('leaves with a place, a camera or a time in it', async () => {
    const demo = (await makeJob('Demo')).id
    jobId = demo
    const folder = path.join('prisma/demo/photos/job-a')
    const before = readFileSync(path.join(folder, '01-before-front.jpg'))
    // The original does hold a place: otherwise this test could not fail.
    expect(Object.keys(ExifReader.load(before))).toContain('GPSLatitude')
    await sendOne(before, 'before', 'front')
    await sendOne(
      readFileSync(path.join(folder, '31-after-left-three-quarter.jpg')),
      'after',
      'front',
    )
    for (const format of ['jpg', 'png', 'webp'] as const) {
      const bytes = await sheet(demo, '1x1', format)
      const found = await openPicture(bytes).metadata()
      expect(found.exif).toBeUndefined()
      expect(found.xmp).toBeUndefined()
      expect(found.iptc).toBeUndefined()
      const groups = Object.keys(ExifReader.load(bytes, { expanded: true }))
      for (const group of ['exif', 'gps', 'xmp', 'iptc', 'makerNotes']) {
        expect(groups).not.toContain(group)
      }
    }
  })

  test('is made of a job that has no pair, and the reason says what to do', async () => {
    jobId = (await makeJob('Blanket box')).id
    expect(await makeSheet(jobId, '1x1', 'jpg')).toMatchObject({
      refusal: { kind: 'conflict' },
    })
    await sendOne(await makePhoto(), 'before', 'front')
    const refusal = await makeSheet(jobId, '1x1', 'jpg')
    expect(refusal.ok ? '' : refusal.refusal.detail).toContain(
      'Take an after photo',
    )
  })

  test.each([
    ['an unknown job', 'no-such-job', {}, 'not-found'],
    ['a photo of no job', '', { before: 'no-such-photo' }, 'invalid'],
  ])('is made of %s', async (_name, job, chosen, kind) => {
    const made = await makeSheet(job === '' ? jobId : job, '1x1', 'jpg', chosen)
    expect(made).toMatchObject({ ok: false, refusal: { kind } })
  })
})

test.each([
  ['Bedside table 🌿'],
  ['🌿🌿'],
  ['\u0007\u202e'],
  ['x'.repeat(400)],
])('a sheet is made though the title is %j', async (title) => {
  jobId = (await makeJob(title)).id
  await sendOne(await solid(orange), 'before', 'front')
  await sendOne(await solid(teal), 'after', 'front')
  for (const design of sheetDesigns) {
    expect((await makeSheet(jobId, '1x1', 'jpg', { design })).ok).toBe(true)
  }
})
