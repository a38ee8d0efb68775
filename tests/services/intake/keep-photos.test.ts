import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
} from 'node:fs'
import path from 'node:path'
import { Readable } from 'node:stream'
import { crc32, deflateSync } from 'node:zlib'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { exactly } from '#core/time/span'
import { database, openDataFolder } from '#services/database/open-database'
import { keepPhotos } from '#services/intake/keep-photos'
import { receiveUpload } from '#services/intake/receive-upload'
import { readJournal } from '#services/journal/read-journal'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { renditionNames } from '#core/photos/rendition-sizes'
import { newPicture } from '#services/renditions/open-picture'
import { renditionsIdle } from '#services/renditions/renditions'
import { makeJob, makeStep } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import {
  arrival,
  photoForm,
  receive,
  sendPhotos,
} from '../../support/send-photos'
import { until } from '../../support/until'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const anyText: unknown = expect.any(String)
const textLike = (shape: RegExp): unknown => expect.stringMatching(shape)

const demo = path.join('prisma', 'demo', 'photos', 'job-a')

async function filesIn(part: 'arriving' | 'originals'): Promise<string[]> {
  // Renditions are made after the answer, and theirs are temporary files too.
  await renditionsIdle()
  const folder = (await openDataFolder())[part]
  if (!existsSync(folder)) return []
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name)
}

async function revisionOf(jobId: string): Promise<number> {
  const db = await database()
  const job = await db.job.findUniqueOrThrow({ where: { id: jobId } })
  return job.revision
}

async function rejection(name: string, bytes: Uint8Array): Promise<string> {
  const job = await makeJob()
  const kept = await sendPhotos(job.id, [[name, bytes]])
  expect(kept.photos).toEqual([])
  expect(await filesIn('originals')).toEqual([])
  expect(await filesIn('arriving')).toEqual([])
  expect(await revisionOf(job.id)).toBe(0)
  expect(kept.rejected.map((one) => one.name)).toEqual([name])
  return kept.rejected[0]?.reason ?? ''
}

describe('a photo that arrives', () => {
  test('is kept byte for byte under its hash, upright, dated and counted', async () => {
    const job = await makeJob()
    const bytes = await makePhoto({
      width: 60,
      height: 40,
      orientation: 6,
      taken: '2026:10:22 09:02:10',
      subSeconds: '041',
      offset: '+01:00',
      make: 'Alder',
      model: 'Phone A',
      serial: 'A-0001',
    })
    const { photos, rejected } = await sendPhotos(
      job.id,
      [['front of it.jpg', bytes]],
      [
        ['role', 'before'],
        ['view', 'front'],
      ],
    )
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    const at = Date.parse('2026-10-22T08:02:10.041Z')
    expect(rejected).toEqual([])
    expect(photos).toEqual([
      {
        id: anyText,
        name: 'front of it.jpg',
        sha256,
        mediaType: 'image/jpeg',
        width: 40,
        height: 60,
        taken: { earliest: at, at, latest: at },
        basis: 'offset',
        warnings: [],
      },
    ])
    const store = await openPhotoStore()
    expect(readFileSync(store.path(sha256)).equals(bytes)).toBe(true)
    expect(await revisionOf(job.id)).toBe(1)
    const db = await database()
    const row = await db.photo.findFirstOrThrow({
      include: { camera: true, original: true },
    })
    expect(row).toMatchObject({
      role: 'before',
      view: 'front',
      exifLocal: '2026-10-22T09:02:10.041',
      exifOffset: '+01:00',
      camera: { make: 'Alder', model: 'Phone A', serial: 'A-0001' },
      original: { byteLength: bytes.byteLength, width: 40, height: 60 },
    })
  })

  test.each([
    ['01-before-front.jpg', '2026-10-22T08:02:10.041Z', 1440, 1080, 'offset'],
    // Stored on its side: Exif orientation 6.
    ['10-primer-1-front.jpg', '2026-10-23T08:30:12.274Z', 1440, 1080, 'offset'],
    ['23-hardware-brass.jpg', '2026-10-25T08:40:05.055Z', 1440, 1080, 'offset'],
    // Camera B has no offset, and its clock is 67 minutes slow: 10:31:40.137 less 67 minutes.
    ['09-scuffed-both.jpg', '2026-10-22T09:24:40.137Z', 1440, 1080, 'zone'],
  ])(
    'of the demo, %s, has its time',
    async (name, at, width, height, basis) => {
      // Times are those that the renderer of the demo photos stamped them with.
      const job = await makeJob()
      const bytes = readFileSync(path.join(demo, name))
      const { photos } = await sendPhotos(job.id, [[name, bytes]])
      expect(photos[0]).toMatchObject({ width, height, basis })
      expect(photos[0]?.taken.at).toBe(Date.parse(at))
    },
  )

  test.each(['jpeg', 'png', 'webp', 'tiff', 'avif'] as const)(
    'may be %s',
    async (kind) => {
      const job = await makeJob()
      const bytes = await makePhoto({}, kind)
      const { photos } = await sendPhotos(job.id, [[`a.${kind}`, bytes]])
      expect(photos[0]).toMatchObject({
        mediaType: `image/${kind}`,
        width: 64,
        height: 48,
      })
    },
  )

  test('under a wrong name is taken for what it is, and said', async () => {
    const job = await makeJob()
    const bytes = await makePhoto({}, 'png')
    const { photos } = await sendPhotos(job.id, [['front.jpg', bytes]])
    expect(photos[0]?.mediaType).toBe('image/png')
    expect(photos[0]?.warnings.join()).toContain('by its content it is PNG')
  })

  test('without a time of its own is dated by its file, else by its arrival', async () => {
    const job = await makeJob()
    const dated = await makePhoto({ width: 30 })
    const bare = await makePhoto({ width: 31 })
    const { photos } = await sendPhotos(
      job.id,
      [
        ['dated.jpg', dated],
        ['bare.jpg', bare],
      ],
      [['modified', '1792656130041']],
    )
    expect(photos.map((photo) => photo.basis)).toEqual(['file', 'arrival'])
    expect(photos[0]?.taken.at).toBe(1792656130041)
    expect(photos[1]?.taken).toEqual(exactly(arrival))
  })

  test('is of the progress until somebody says that it is a before or an after', async () => {
    const job = await makeJob()
    await sendPhotos(job.id, [['a.jpg', await makePhoto({ width: 30 })]])
    await sendPhotos(
      job.id,
      [['b.jpg', await makePhoto({ width: 31 })]],
      [['role', 'before']],
    )
    const db = await database()
    const rows = await db.photo.findMany({ orderBy: { fileName: 'asc' } })
    expect(rows.map((row) => row.role)).toEqual(['progress', 'before'])
  })

  test('for a step shows the surfaces of that step unless others are named', async () => {
    const job = await makeJob('Sideboard', ['body', 'top', 'legs'])
    const [body = '', top = '', legs = ''] = job.surfaceIds
    const step = await makeStep(job.id, 'prime', [body, top])
    await sendPhotos(
      job.id,
      [['a.jpg', await makePhoto({ width: 30 })]],
      [['step', step]],
    )
    await sendPhotos(
      job.id,
      [['b.jpg', await makePhoto({ width: 31 })]],
      [
        ['step', step],
        ['surface', legs],
        ['surface', top],
      ],
    )
    const db = await database()
    const rows = await db.photo.findMany({
      orderBy: { fileName: 'asc' },
      include: { surfaces: true },
    })
    expect(rows.map((row) => [row.stepId, row.role])).toEqual([
      [step, 'progress'],
      [step, 'progress'],
    ])
    expect(
      rows.map((row) => row.surfaces.map((one) => one.surfaceId).sort()),
    ).toEqual([[body, top].sort(), [legs, top].sort()])
  })
})

test('of several pictures in one file the first is shown, and that is said', async () => {
  const job = await makeJob()
  const page = await makePhoto({}, 'png')
  const file = await joined([page, page])
  const { photos } = await sendPhotos(job.id, [['pages.tif', file]])
  expect(photos[0]?.warnings.join()).toContain('holds 2 pictures')
})

/** A TIFF with a page for each picture. */
function joined(pictures: Buffer[]): Promise<Buffer> {
  return sharp(pictures, { join: { animated: true } })
    .tiff()
    .toBuffer()
}

describe('the same photo again', () => {
  test('in the same job is the photo that is there', async () => {
    const job = await makeJob()
    const bytes = await makePhoto()
    const first = await sendPhotos(job.id, [['a.jpg', bytes]])
    const again = await sendPhotos(job.id, [
      ['b.jpg', bytes],
      ['c.jpg', bytes],
    ])
    const id = first.photos[0]?.id
    expect(first.photos[0]).not.toHaveProperty('duplicateOf')
    expect(again.photos.map((photo) => [photo.id, photo.duplicateOf])).toEqual([
      [id, id],
      [id, id],
    ])
    expect(await filesIn('originals')).toHaveLength(1)
    expect(await filesIn('arriving')).toEqual([])
    expect(await revisionOf(job.id)).toBe(1)
    expect(await (await database()).photo.count()).toBe(1)
  })

  test('sent for a step is put on that step, with its surfaces', async () => {
    const job = await makeJob()
    const [body = ''] = job.surfaceIds
    const step = await makeStep(job.id, 'prime', [body])
    const bytes = await makePhoto()
    const first = await sendPhotos(job.id, [['a.jpg', bytes]])
    const again = await sendPhotos(job.id, [['b.jpg', bytes]], [['step', step]])
    expect(again.photos[0]?.id).toBe(first.photos[0]?.id)
    expect(again.photos[0]?.warnings[0]).toContain('belongs to the step now')
    expect((await readJournal(job.id))?.photos).toMatchObject([
      { stepId: step, role: 'progress', surfaceIds: [body] },
    ])
    expect(await revisionOf(job.id)).toBe(2)
    await sendPhotos(job.id, [['c.jpg', bytes]], [['step', step]])
    expect(await revisionOf(job.id)).toBe(2)
  })

  test('in another job is another photo of the one original', async () => {
    const job = await makeJob()
    const other = await makeJob('Blanket box')
    const bytes = await makePhoto()
    const first = await sendPhotos(job.id, [['a.jpg', bytes]])
    const again = await sendPhotos(other.id, [['a.jpg', bytes]])
    expect(again.photos[0]?.duplicateOf).toBe(first.photos[0]?.id)
    expect(again.photos[0]?.id).not.toBe(first.photos[0]?.id)
    expect(await filesIn('originals')).toHaveLength(1)
    expect(await (await database()).original.count()).toBe(1)
    expect(await revisionOf(other.id)).toBe(1)
  })

  test('sent twice at once is kept once', async () => {
    const job = await makeJob()
    const bytes = await makePhoto()
    const sent = await Promise.all(
      [1, 2, 3, 4].map(() => sendPhotos(job.id, [['a.jpg', bytes]])),
    )
    const ids = sent.flatMap(({ photos }) => photos.map((photo) => photo.id))
    expect(new Set(ids).size).toBe(1)
    expect(await (await database()).photo.count()).toBe(1)
  })
})

/** A PNG with one chunk more, behind its first (PNG third edition, 5.3). */
function withChunk(png: Buffer, name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name), data])
  const numbers = Buffer.alloc(8)
  numbers.writeUInt32BE(data.byteLength, 0)
  numbers.writeUInt32BE(crc32(body), 4)
  return Buffer.concat([
    png.subarray(0, 33),
    numbers.subarray(0, 4),
    body,
    numbers.subarray(4),
    png.subarray(33),
  ])
}

describe('a file that cannot be taken', () => {
  test('is named with its reason while the others of its batch are kept', async () => {
    const job = await makeJob()
    const { photos, rejected } = await sendPhotos(job.id, [
      ['notes.jpg', Buffer.from('Dear buyer,')],
      ['good.jpg', await makePhoto()],
      ['empty.jpg', Buffer.alloc(0)],
    ])
    expect(photos.map((photo) => photo.name)).toEqual(['good.jpg'])
    expect(rejected.map((one) => one.name)).toEqual(['notes.jpg', 'empty.jpg'])
    expect(await filesIn('arriving')).toEqual([])
  })

  test('may be empty', async () => {
    expect(await rejection('a.jpg', Buffer.alloc(0))).toMatch(/empty/)
  })

  test('may be no picture', async () => {
    expect(await rejection('a.jpg', Buffer.from('Dear buyer,'))).toMatch(
      /not a picture/,
    )
  })

  test.each([0.3, 0.6, 0.9, 0.99])(
    'may be a JPEG of which only the first %d has arrived',
    async (share) => {
      const whole = readFileSync(path.join(demo, '01-before-front.jpg'))
      const part = whole.subarray(0, Math.floor(whole.byteLength * share))
      expect(await rejection('a.jpg', part)).toMatch(/incomplete/)
    },
  )

  test('may be a JPEG that lacks only its last two bytes', async () => {
    const whole = readFileSync(path.join(demo, '01-before-front.jpg'))
    expect(await rejection('a.jpg', whole.subarray(0, -2))).toMatch(
      /incomplete/,
    )
  })

  test.each(['png', 'webp', 'tiff', 'avif'] as const)(
    'may be half of a %s',
    async (kind) => {
      const whole = await makePhoto({ width: 600, height: 400 }, kind)
      const half = whole.subarray(0, Math.floor(whole.byteLength / 2))
      expect(await rejection(`a.${kind}`, half)).toMatch(/incomplete|damaged/)
    },
  )

  test.each([
    ['png', /damaged/],
    ['webp', /damaged/],
    ['avif', /damaged/],
  ] as const)(
    'may be a whole %s with damage, which is told from one that broke off',
    async (kind, reason) => {
      const bytes = await makePhoto({ width: 600, height: 400 }, kind)
      const middle = Math.floor(bytes.byteLength / 2)
      bytes.fill(0xa5, middle, middle + 40)
      expect(await rejection(`a.${kind}`, bytes)).toMatch(reason)
    },
  )

  test('may hold more pictures than a burst has', async () => {
    const frame = await newPicture({
      create: { width: 8, height: 8, channels: 3, background: 'teal' },
    })
      .png()
      .toBuffer()
    const film = await joined(Array<Buffer>(201).fill(frame))
    expect(await rejection('a.tif', film)).toMatch(/more than 200 pictures/)
  })

  test('may be a picture of 60 megapixels in a few kilobytes', async () => {
    const bomb = await newPicture({
      limitInputPixels: 100_000_000,
      create: { width: 10_000, height: 6000, channels: 3, background: 'white' },
    })
      .png({ compressionLevel: 9 })
      .toBuffer()
    expect(bomb.byteLength).toBeLessThan(300_000)
    const before = process.memoryUsage().rss
    expect(await rejection('a.png', bomb)).toMatch(/more than 55 megapixels/)
    // Decoded it would take 180 MB.
    expect(process.memoryUsage().rss - before).toBeLessThan(60_000_000)
  })

  test.each([
    ['iCCP', 'profile\0\0'],
    ['zTXt', 'Raw profile type exif\0\0'],
    ['iTXt', 'XML:com.adobe.xmp\0\x01\0en\0\0'],
  ])(
    'may have a chunk %s of 400 kB that unpacks to 400 MB',
    async (name, head) => {
      const photo = await makePhoto({}, 'png')
      const packed = deflateSync(Buffer.alloc(400_000_000))
      const swollen = withChunk(
        photo,
        name,
        Buffer.concat([Buffer.from(head, 'latin1'), packed]),
      )
      const before = process.memoryUsage().rss
      expect(await rejection('a.png', swollen)).toMatch(/profile or a text/)
      expect(process.memoryUsage().rss - before).toBeLessThan(120_000_000)
    },
    30_000,
  )

  test.each([
    ['12 bits a colour', 0xc1, 12],
    ['differential frames', 0xc5, 8],
  ])(
    'may be a JPEG with %s, which is not called damaged',
    async (_what, frame, bits) => {
      const photo = await makePhoto()
      // The header of its frame: marker, length, precision (ISO/IEC 10918-1, B.2.2).
      const at = photo.indexOf(Buffer.from([0xff, 0xc0]))
      photo[at + 1] = frame
      photo[at + 4] = bits
      expect(await rejection('a.jpg', photo)).toMatch(/ordinary JPEG/)
    },
  )

  // Entries of a TIFF's directory, each with one short (TIFF 6.0, section 8).
  test.each([
    ['a plane of tiles for each colour', 284, 1, 2],
    ['12 bits a colour', 258, 8, 12],
  ])(
    'may be a TIFF with %s, which is not called damaged',
    async (_what, tag, before, after) => {
      const photo = await newPicture({
        create: { width: 64, height: 64, channels: 3, background: 'teal' },
      })
        .toColourspace(tag === 258 ? 'b-w' : 'srgb')
        .tiff({ tile: tag === 284, tileWidth: 16, tileHeight: 16 })
        .toBuffer()
      const entry = [tag & 0xff, tag >> 8, 3, 0, 1, 0, 0, 0]
      const at = photo.indexOf(Buffer.from([...entry, before, 0]))
      photo[at + entry.length] = after
      expect(await rejection('a.tif', photo)).toMatch(/ordinary JPEG/)
    },
  )

  test('may be too large, and what comes after it in the form is kept', async () => {
    const job = await makeJob()
    const good = await makePhoto()
    const form = photoForm([
      ['huge.jpg', Buffer.concat([good, Buffer.alloc(300_000)])],
      ['good.jpg', good],
    ])
    const upload = await receive(form, { fileBytes: 200_000, files: 100 })
    if (!upload.ok) throw new Error(upload.refusal.detail)
    const kept = await keepPhotos(job.id, upload.value, arrival)
    expect(kept).toMatchObject({
      ok: true,
      value: {
        photos: [{ name: 'good.jpg' }],
        rejected: [
          {
            name: 'huge.jpg',
            reason: textLike(/larger than 0.2 MB/),
          },
        ],
      },
    })
    expect(await filesIn('arriving')).toEqual([])
  })

  test('may be one too many', async () => {
    const job = await makeJob()
    const form = photoForm([
      ['1.jpg', await makePhoto({ width: 30 })],
      ['2.jpg', await makePhoto({ width: 31 })],
      ['3.jpg', await makePhoto({ width: 32 })],
    ])
    const upload = await receive(form, { fileBytes: 200_000, files: 2 })
    if (!upload.ok) throw new Error(upload.refusal.detail)
    const kept = await keepPhotos(job.id, upload.value, arrival)
    expect(kept).toMatchObject({
      value: { rejected: [{ name: '3.jpg' }] },
    })
  })
})

describe('an upload that cannot be placed', () => {
  test.each([
    ['an unknown step', 'step', 'invalid', /no such step/],
    ['an unknown surface', 'surface', 'invalid', /no such surface/],
  ])('for %s keeps nothing', async (_name, field, kind, detail) => {
    const job = await makeJob()
    const form = photoForm(
      [['a.jpg', await makePhoto()]],
      [[field, 'no-such-thing']],
    )
    const upload = await receive(form)
    if (!upload.ok) throw new Error(upload.refusal.detail)
    const kept = await keepPhotos(job.id, upload.value, arrival)
    expect(kept).toMatchObject({
      ok: false,
      refusal: { kind, detail: textLike(detail) },
    })
    expect(await filesIn('arriving')).toEqual([])
    expect(await filesIn('originals')).toEqual([])
  })

  test('for an unknown job keeps nothing', async () => {
    const upload = await receive(photoForm([['a.jpg', await makePhoto()]]))
    if (!upload.ok) throw new Error(upload.refusal.detail)
    const kept = await keepPhotos('no-such-job', upload.value, arrival)
    expect(kept).toMatchObject({ refusal: { kind: 'not-found' } })
    expect(await filesIn('arriving')).toEqual([])
    expect(await filesIn('originals')).toEqual([])
  })

  test("for another job's surface keeps nothing", async () => {
    const job = await makeJob()
    const other = await makeJob('Blanket box')
    const form = photoForm(
      [['a.jpg', await makePhoto()]],
      [['surface', other.surfaceIds[0] ?? '']],
    )
    const upload = await receive(form)
    if (!upload.ok) throw new Error(upload.refusal.detail)
    const kept = await keepPhotos(job.id, upload.value, arrival)
    expect(kept.ok).toBe(false)
    expect(await filesIn('originals')).toEqual([])
  })

  test('with a role nobody knows keeps nothing', async () => {
    const form = photoForm([['a.jpg', await makePhoto()]], [['role', 'during']])
    expect(await receive(form)).toMatchObject({
      ok: false,
      refusal: { kind: 'invalid', detail: textLike(/role/) },
    })
    expect(await filesIn('arriving')).toEqual([])
  })
})

describe('an upload that breaks off', () => {
  async function encoded(): Promise<{ type: string; bytes: Uint8Array }> {
    const form = photoForm([
      ['a.jpg', await makePhoto({ width: 600, height: 400 })],
      ['b.jpg', await makePhoto({ width: 601, height: 400 })],
    ])
    const request = new Request('http://localhost/', {
      method: 'POST',
      body: form,
    })
    return {
      type: request.headers.get('content-type') ?? '',
      bytes: new Uint8Array(await request.arrayBuffer()),
    }
  }

  const shares = [0.02, 0.3, 0.5, 0.7, 0.99]
  const ways = ['by the framework', 'by the server itself'] as const
  type Way = (typeof ways)[number]
  const shareAndWay = shares.flatMap((share) =>
    ways.map((way) => [share, way] as const),
  )
  const bodyOf = (bytes: Uint8Array | string, way: Way) =>
    way === 'by the framework'
      ? new Blob([new Uint8Array(Buffer.from(bytes))]).stream()
      : Readable.from([Buffer.from(bytes)])

  test.each(shareAndWay)(
    'after %d of it, handed on %s, is refused and leaves nothing behind',
    async (share, way) => {
      const { type, bytes } = await encoded()
      const part = bytes.slice(0, Math.floor(bytes.byteLength * share))
      const received = await receiveUpload(type, bodyOf(part, way))
      expect(received).toMatchObject({ refusal: { kind: 'invalid' } })
      expect(await filesIn('arriving')).toEqual([])
    },
  )

  test.each(shareAndWay)(
    'because the sender went away after %d of it, handed on %s, leaves nothing behind',
    async (share, way) => {
      const { type, bytes } = await encoded()
      const part = bytes.slice(0, Math.floor(bytes.byteLength * share))
      const received = await receiveUpload(
        type,
        way === 'by the framework' ? breakingStream(part) : breaking(part),
      )
      expect(received).toMatchObject({ refusal: { kind: 'invalid' } })
      expect(await filesIn('arriving')).toEqual([])
    },
  )

  test.each(
    (
      [
        ['no boundary', 'multipart/form-data', 'x'],
        ['no form', 'multipart/form-data; boundary=b', 'just text'],
        [
          'a part without an end to its header',
          'multipart/form-data; boundary=b',
          `--b\r\n${'x'.repeat(20_000)}`,
        ],
        [
          'another kind of form',
          'application/x-www-form-urlencoded',
          'role=before',
        ],
      ] as const
    ).flatMap((form) => ways.map((way) => [...form, way] as const)),
  )('or is %s is refused', async (_name, type, text, way) => {
    const received = await receiveUpload(type, bodyOf(text, way))
    expect(received).toMatchObject({ refusal: { kind: 'invalid' } })
  })

  test('is read to its end all the same where the server itself reads it: only then does its sender hear why', async () => {
    const body = Readable.from(
      Array.from({ length: 40 }, () => Buffer.alloc(65_536, 'x')),
    )
    const type = 'multipart/form-data; boundary=b'
    expect(await receiveUpload(type, body)).toMatchObject({
      refusal: { kind: 'invalid' },
    })
    await until(() => {
      expect(body.readableEnded).toBe(true)
    })
  })

  function breakingStream(part: Uint8Array): ReadableStream<Uint8Array> {
    let sent = 0
    return new ReadableStream<Uint8Array>({
      pull: (controller) => {
        if (sent >= part.byteLength) {
          controller.error(new Error('aborted'))
          return
        }
        controller.enqueue(part.slice(sent, sent + 1000))
        sent += 1000
      },
    })
  }

  function breaking(part: Uint8Array): Readable {
    let sent = 0
    return new Readable({
      read() {
        if (sent >= part.byteLength) {
          this.destroy(new Error('aborted'))
          return
        }
        this.push(part.slice(sent, sent + 1000))
        sent += 1000
      },
    })
  }
})

test('fields may come after the files', async () => {
  const form = new FormData()
  form.append('file', new Blob([new Uint8Array(await makePhoto())]), 'a.jpg')
  form.append('view', 'front')
  form.append('role', 'after')
  form.append('modified', '1792656130041')
  expect(await receive(form)).toMatchObject({
    value: {
      fields: { role: 'after', view: 'front' },
      files: [{ name: 'a.jpg', modifiedAt: 1792656130041 }],
    },
  })
})

test('a file name is kept as its sender wrote it, without a path', async () => {
  const form = photoForm([['../../Küche „vorn“ 👌.jpg', await makePhoto()]])
  expect(await receive(form)).toMatchObject({
    value: { files: [{ name: 'Küche „vorn“ 👌.jpg' }] },
  })
})

test('renditions come after the answer and are all there when the queue is empty', async () => {
  const job = await makeJob()
  await sendPhotos(job.id, [['a.jpg', await makePhoto()]])
  await renditionsIdle()
  const { renditions } = await openDataFolder()
  const made = readdirSync(renditions, { recursive: true }).map(String)
  expect(made.filter((name) => name.endsWith('.webp'))).toHaveLength(
    renditionNames.length,
  )
})

test('a photo that could not be put in its place does not keep its bytes from being removed later', async () => {
  const job = await makeJob()
  const bytes = await makePhoto()
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const store = await openPhotoStore()
  // A folder where the file belongs.
  mkdirSync(store.path(sha256), { recursive: true })
  await expect(sendPhotos(job.id, [['a.jpg', bytes]])).rejects.toThrow()
  rmSync(store.path(sha256), { recursive: true })
  expect(await store.remove(sha256, () => Promise.resolve(true))).toBe(true)
})

test('a part whose header cannot be read ends the upload at once, whatever follows it', async () => {
  const part = (name: string, bytes: string) =>
    `--x\r\nContent-Disposition: form-data; name="file"; filename="${name}"\r\n\r\n${bytes}\r\n`
  // In one go, so that the parser holds the second file already when it meets the first.
  const body = `${part('a\u0000b', 'abc')}${part('front.jpg', 'x'.repeat(100_000))}`
  const sent = await receiveUpload(
    'multipart/form-data; boundary=x',
    new Blob([body, '--x--\r\n']).stream(),
  )
  expect(sent).toMatchObject({ ok: false, refusal: { kind: 'invalid' } })
  expect(await filesIn('arriving')).toEqual([])
}, 5000)
