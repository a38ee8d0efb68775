import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { checkJpeg } from '#services/intake/check-jpeg'
import { newPicture, openPicture } from '#services/renditions/open-picture'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-jpeg-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})

async function check(bytes: Uint8Array) {
  const file = path.join(folder, 'photo.jpg')
  writeFileSync(file, bytes)
  return checkJpeg(file)
}

const demo = readFileSync('prisma/demo/photos/job-a/01-before-front.jpg')

async function grain(options: { progressive: boolean }): Promise<Buffer> {
  return newPicture({
    create: {
      width: 900,
      height: 700,
      channels: 3,
      background: 'white',
      noise: { type: 'gaussian', mean: 128, sigma: 60 },
    },
  })
    .jpeg({ quality: 95, ...options })
    .toBuffer()
}

/** A segment of its own, written behind the first marker. */
function withSegment(jpeg: Buffer, code: number, data: Buffer): Buffer {
  const head = Buffer.from([0xff, code, 0, 0])
  head.writeUInt16BE(data.byteLength + 2, 2)
  return Buffer.concat([jpeg.subarray(0, 2), head, data, jpeg.subarray(2)])
}

describe('a JPEG is whole', () => {
  test.each([true, false])('progressive: %s', async (progressive) => {
    // Larger than the window that it is read through.
    const bytes = await grain({ progressive })
    expect(bytes.byteLength).toBeGreaterThan(300_000)
    expect(await check(bytes)).toBe('whole')
  })

  test('with whatever comes behind its end', async () => {
    const tail = Buffer.from('<html><script>')
    expect(await check(Buffer.concat([demo, tail]))).toBe('whole')
  })

  test('with filling before its markers', async () => {
    const filled = Buffer.concat([
      demo.subarray(0, 2),
      Buffer.from([0xff, 0xff, 0xff]),
      demo.subarray(2),
    ])
    expect(await check(filled)).toBe('whole')
  })
})

describe('a JPEG is incomplete', () => {
  test.each([true, false])(
    'wherever it is cut off; progressive: %s',
    async (progressive) => {
      const bytes = await grain({ progressive })
      for (let share = 0.001; share < 1; share += 0.0173) {
        const part = bytes.subarray(0, Math.floor(bytes.byteLength * share))
        expect(await check(part)).toBe('incomplete')
      }
      for (const missing of [1, 2, 3]) {
        expect(await check(bytes.subarray(0, -missing))).toBe('incomplete')
      }
    },
  )

  test('though the thumbnail inside it is whole', async () => {
    const thumbnail = await openPicture(demo).resize(160).jpeg().toBuffer()
    const bytes = withSegment(demo, 0xe1, thumbnail)
    expect(await check(bytes)).toBe('whole')
    expect(await check(bytes.subarray(0, thumbnail.byteLength + 2000))).toBe(
      'incomplete',
    )
  })

  test('when the rest of it was never filled in', async () => {
    const half = Math.floor(demo.byteLength / 2)
    const blank = Buffer.alloc(demo.byteLength - half)
    expect(await check(Buffer.concat([demo.subarray(0, half), blank]))).toBe(
      'incomplete',
    )
  })
})

describe('a JPEG is damaged', () => {
  test('when it ends before it has begun', async () => {
    expect(await check(Buffer.from([0xff, 0xd8, 0xff, 0xd9]))).toBe('damaged')
  })

  // ISO/IEC 10918-1 B.2.4.2: sixteen counts of codes by length, then their values.
  test.each([
    ['more codes of one bit than there are', [3, ...Array<number>(15).fill(0)]],
    ['more codes than any table has', Array<number>(16).fill(255)],
  ])('when a table has %s', async (_name, counts) => {
    const values = Buffer.alloc(counts.reduce((sum, one) => sum + one, 0))
    const table = Buffer.concat([Buffer.from([0, ...counts]), values])
    expect(await check(withSegment(demo, 0xc4, table))).toBe('damaged')
  })
})

test('a JPEG with something between its markers is flawed', async () => {
  const bytes = Buffer.concat([
    demo.subarray(0, 2),
    Buffer.from([1, 2, 3]),
    demo.subarray(2),
  ])
  expect(await check(bytes)).toBe('flawed')
})

test('a JPEG that only a decoder can judge is left to it', async () => {
  const bytes = Buffer.from(demo)
  const frame = bytes.indexOf(Buffer.from([0xff, 0xc0]))
  expect(frame).toBeGreaterThan(0)
  // Lossless, process 14: ISO/IEC 10918-1 table B.1.
  bytes[frame + 1] = 0xc3
  expect(await check(bytes)).toBe('unusual')
})
