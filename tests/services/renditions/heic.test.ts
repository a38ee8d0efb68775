import { readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { openDataFolder } from '#services/database/open-database'
import { decodeHeic } from '#services/renditions/decode-heic'
import { newPicture, openPicture } from '#services/renditions/open-picture'
import type { RenditionName } from '#core/photos/rendition-sizes'
import { readRendition, renditionsIdle } from '#services/renditions/renditions'
import { tiffPixelsAt, writeTiffHead } from '#services/renditions/tiff-head'
import { type MadeHeic, makeHeic } from '../../support/make-heic'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function send(bytes: Buffer) {
  const job = await makeJob()
  return sendPhotos(job.id, [['photo.heic', bytes]])
}

async function keep(made: MadeHeic) {
  const { photos, rejected } = await send(makeHeic(made))
  const [photo] = photos
  if (photo === undefined) throw new Error(rejected[0]?.reason)
  return photo
}

async function rendition(sha256: string, name: RenditionName) {
  const made = await readRendition(sha256, name)
  if (!made.ok) throw new Error(made.refusal.detail)
  return readFileSync(made.value.path)
}

async function colourAt(bytes: Buffer, x: number, y: number) {
  const { width, height } = await openPicture(bytes).metadata()
  const left = Math.floor(x * width)
  const top = Math.floor(y * height)
  const part = await openPicture(bytes)
    .extract({ left, top, width: 4, height: 4 })
    .png()
    .toBuffer()
  const { channels } = await openPicture(part).stats()
  return channels.slice(0, 3).map((channel) => channel.mean)
}

async function profile(name: string): Promise<Buffer> {
  const dot = await newPicture({
    create: { width: 1, height: 1, channels: 3, background: 'white' },
  })
    .withIccProfile(name)
    .png()
    .toBuffer()
  const { icc } = await openPicture(dot).metadata()
  if (icc === undefined) throw new Error('no profile')
  return icc
}

const sand = [200, 150, 80]
const teal = [20, 120, 110]
/** Two lossy codings one behind the other. */
const coded = 4

function expectNear(
  found: readonly number[],
  wanted: readonly number[],
  within: number,
): void {
  for (const [index, value] of wanted.entries()) {
    expect(Math.abs((found[index] ?? NaN) - value)).toBeLessThanOrEqual(within)
  }
}

describe('a HEIC photo', () => {
  test('is kept, shown in its colours, and known as what it is', async () => {
    const photo = await keep({})
    expect(photo).toMatchObject({
      mediaType: 'image/heic',
      width: 160,
      height: 120,
    })
    const screen = await rendition(photo.sha256, 'screen')
    expectNear(await colourAt(screen, 0.2, 0.5), sand, coded)
    expectNear(await colourAt(screen, 0.8, 0.5), teal, coded)
  })

  // ISO/IEC 23008-12 6.5.10: angle * 90 is the turn against the clock. Stored, the light half is on the left.
  test.each([
    [0, 160, 120, [0.2, 0.5]],
    [1, 120, 160, [0.5, 0.8]],
    [2, 160, 120, [0.8, 0.5]],
    [3, 120, 160, [0.5, 0.2]],
  ] as const)(
    'of %d quarter turns in its container is turned once',
    async (turns, width, height, [x, y]) => {
      // The Exif block says it as well, as phones do: it must not be turned twice.
      const exif = await exifBlock({ orientation: 6 })
      const photo = await keep({ turns, exif })
      expect(photo).toMatchObject({ width, height })
      const screen = await rendition(photo.sha256, 'screen')
      expect(await openPicture(screen).metadata()).toMatchObject({
        width,
        height,
      })
      expectNear(await colourAt(screen, x, y), sand, coded)
    },
  )

  test('made of tiles is one picture', async () => {
    const photo = await keep({ grid: [3, 2] })
    expect(photo).toMatchObject({ width: 480, height: 240 })
    const screen = await rendition(photo.sha256, 'screen')
    // The second tile of the second row, its left half and its right half.
    expectNear(await colourAt(screen, (160 + 20) / 480, 0.75), sand, coded)
    expectNear(await colourAt(screen, (160 + 140) / 480, 0.75), teal, coded)
  })

  test('of which the container shows the middle alone is cropped', async () => {
    const photo = await keep({ crop: [40, 20] })
    expect(photo).toMatchObject({ width: 40, height: 20 })
    const screen = await rendition(photo.sha256, 'screen')
    expectNear(await colourAt(screen, 0.2, 0.5), sand, coded)
    expectNear(await colourAt(screen, 0.8, 0.5), teal, coded)
  })

  test('has its time and its camera, wherever in the file they stand', async () => {
    const exif = await exifBlock({
      taken: '2026:10:22 09:02:10',
      subSeconds: '041',
      offset: '+01:00',
    })
    const photo = await keep({ exif })
    expect(photo.basis).toBe('offset')
    expect(photo.taken.at).toBe(Date.parse('2026-10-22T08:02:10.041Z'))
  })

  // CSS Color Module Level 4 (W3C), section 18, sample code: the matrices between Display P3, CIE XYZ (D65) and sRGB;
  // the transfer curve is that of IEC 61966-2-1 for both.
  const linear = (value: number) => {
    const share = value / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  }
  const coding = (value: number) =>
    255 *
    (value <= 0.0031308 ? value * 12.92 : 1.055 * value ** (1 / 2.4) - 0.055)
  const times = (
    matrix: readonly (readonly number[])[],
    v: readonly number[],
  ) =>
    matrix.map((row) => row.reduce((sum, one, i) => sum + one * (v[i] ?? 0), 0))
  const p3ToXyz = [
    [608311 / 1250200, 189793 / 714400, 198249 / 1000160],
    [35783 / 156275, 247089 / 357200, 198249 / 2500400],
    [0, 32229 / 714400, 5220557 / 5000800],
  ]
  const xyzToSrgb = [
    [12831 / 3959, -329 / 214, -1974 / 3959],
    [-851781 / 878810, 1648619 / 878810, 36519 / 878810],
    [705 / 12673, -2585 / 12673, 705 / 667],
  ]
  const fromP3 = (colour: readonly number[]) =>
    times(xyzToSrgb, times(p3ToXyz, colour.map(linear))).map((value) =>
      Math.round(coding(Math.min(1, Math.max(0, value)))),
    )

  test.each([
    ['a profile', async () => ({ profile: await profile('p3') })],
    [
      'primaries named in its container',
      () => Promise.resolve({ primaries: 12 }),
    ],
  ])('in the colours of Display P3 by %s is converted', async (_name, made) => {
    const wanted = fromP3(sand)
    // That it would show: the colours differ by more than the coding does.
    expect(Math.abs((wanted[0] ?? 0) - (sand[0] ?? 0))).toBeGreaterThan(coded)
    const photo = await keep(await made())
    const screen = await rendition(photo.sha256, 'screen')
    expectNear(await colourAt(screen, 0.2, 0.5), wanted, coded)
    expect((await openPicture(screen).metadata()).icc).toBeUndefined()
  })

  test('in JPEG, in the colours of Display P3, is converted as well', async () => {
    const bytes = await openPicture(
      await makePhoto({ colour: { r: 20, g: 120, b: 110 } }, 'png'),
    )
      .withIccProfile('p3', { attach: true })
      .jpeg({ quality: 100, chromaSubsampling: '4:4:4' })
      .toBuffer()
    // Its numbers are others than those it was drawn with.
    const job = await makeJob()
    const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]])
    const screen = await rendition(photos[0]?.sha256 ?? '', 'screen')
    expectNear(await colourAt(screen, 0.8, 0.5), teal, coded)
  })

  test.each([0.2, 0.6, 0.99])(
    'of which only the first %d has arrived is refused',
    async (share) => {
      const whole = makeHeic({ grid: [2, 2] })
      const part = whole.subarray(0, Math.floor(whole.byteLength * share))
      const { photos, rejected } = await send(part)
      expect(photos).toEqual([])
      expect(rejected[0]?.reason).toMatch(/incomplete|damaged/)
    },
  )

  test('of which one tile is said to stand outside the file is kept with a warning: a blank is shown in its place', async () => {
    const bytes = makeHeic({ grid: [3, 2] })
    // Of the first item of the box `iloc`: where its data begins, far behind the end.
    bytes.writeUInt32BE(0x7ffffff0, bytes.indexOf('iloc') + 18)
    const { photos } = await send(bytes)
    expect(photos[0]).toMatchObject({ width: 480, height: 240 })
    expect(photos[0]?.warnings).toContainEqual(
      expect.stringMatching(/may be damaged/),
    )
    const sound = await keep({ grid: [3, 2] })
    expect(sound.warnings.join()).not.toMatch(/damaged/)
  })

  test('whose crop is larger than its picture has the size that there is of it', async () => {
    const photo = await keep({ crop: [8000, 6000] })
    expect(photo).toMatchObject({ width: 160, height: 120 })
    expect(photo.warnings.join()).toMatch(/may be damaged/)
  })

  test.each([
    ['more rows than there are tiles for', 2, Buffer.from([200])],
    ['fewer rows than its height', 2, Buffer.from([0])],
    ['a width of tiles that are not there', 4, Buffer.from([0x12, 0xc0])],
    ['no width', 4, Buffer.from([0, 0])],
  ] as const)('with a grid of %s is refused', async (_what, at, value) => {
    const bytes = makeHeic({ grid: [3, 2] })
    // Version, flags, rows less one, columns less one, width, height (ISO/IEC 23008-12, 6.6.2.3.2).
    const grid = bytes.lastIndexOf(Buffer.from([0, 0, 1, 2, 1, 0xe0, 0, 0xf0]))
    value.copy(bytes, grid + at)
    const { photos, rejected } = await send(bytes)
    expect(photos).toEqual([])
    expect(rejected[0]?.reason).toMatch(/damaged/)
  })

  test('whose grid is its own tile is refused', async () => {
    const bytes = makeHeic({ grid: [3, 2] })
    const tiles = bytes.indexOf('dimg') + 8
    bytes.writeUInt16BE(7, tiles)
    const { rejected } = await send(bytes)
    expect(rejected[0]?.reason).toMatch(/damaged/)
  })

  test('that is damaged inside is refused', async () => {
    const bytes = makeHeic()
    const data = bytes.indexOf('mdat') + 8
    bytes.fill(0xff, data, bytes.byteLength)
    const { rejected } = await send(bytes)
    expect(rejected[0]?.reason).toMatch(/damaged/)
  })

  test('has its renditions when it is acknowledged, and they are made again when lost', async () => {
    const photo = await keep({ turns: 1 })
    await renditionsIdle()
    const { renditions } = await openDataFolder()
    const made = await readRendition(photo.sha256, 'zoom')
    if (!made.ok) throw new Error(made.refusal.detail)
    const before = readFileSync(made.value.path)
    writeFileSync(made.value.path, '')
    expect((await rendition(photo.sha256, 'zoom')).equals(before)).toBe(true)
    expect(made.value.path.startsWith(renditions)).toBe(true)
  })
})

describe('decoding HEIC', () => {
  async function file(bytes: Buffer): Promise<string> {
    const { root } = await openDataFolder()
    const name = path.join(root, 'photo.heic')
    writeFileSync(name, bytes)
    return name
  }

  test('ends when it takes too long', async () => {
    const name = await file(makeHeic())
    await expect(
      decodeHeic(name, undefined, { milliseconds: 1, bytes: 1e9 }),
    ).rejects.toThrow('too long')
  })

  test('ends when it asks for too much memory', async () => {
    const name = await file(makeHeic({ grid: [20, 20] }))
    await expect(
      decodeHeic(name, undefined, { milliseconds: 30_000, bytes: 20_000_000 }),
    ).rejects.toThrow()
    const limits = { milliseconds: 30_000, bytes: 500_000_000 }
    const tiff = await decodeHeic(name, undefined, limits)
    expect(await openPicture(tiff).metadata()).toMatchObject({
      width: 3200,
      height: 2400,
    })
  })
})

test.each([
  [1, 1],
  [3, 64],
  [5, 65],
  [7, 200],
])('a TIFF of %d x %d wraps its pixels as they are', async (width, height) => {
  const icc = await profile('srgb')
  const at = tiffPixelsAt(icc)
  const bytes = new Uint8Array(at + width * height * 3)
  for (let index = at; index < bytes.byteLength; index += 1) {
    bytes[index] = (index * 7) % 256
  }
  writeTiffHead(bytes, { width, height, profile: icc })
  const tiff = openPicture(Buffer.from(bytes))
  expect(await tiff.metadata()).toMatchObject({ width, height, channels: 3 })
  const read = await openPicture(Buffer.from(bytes)).raw().toBuffer()
  expect(read.equals(Buffer.from(bytes.subarray(at)))).toBe(true)
})

async function exifBlock(photo: Parameters<typeof makePhoto>[0]) {
  const { exif } = await openPicture(await makePhoto(photo)).metadata()
  if (exif === undefined) throw new Error('no Exif block')
  return exif.subarray(6)
}
