import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { type JpegCondition, jpegWalk } from '#services/intake/jpeg-walk'
import { newPicture, openPicture } from '#services/renditions/open-picture'
import { piecesOf } from '../../support/pieces-of'

/** The same however it comes in pieces. */
function check(bytes: Buffer): JpegCondition {
  const found = [1 + bytes.byteLength, 65_536, 4099].map((length) => {
    const walk = jpegWalk()
    for (const piece of piecesOf(bytes, length)) walk.take(piece)
    return walk.end()
  })
  const [first = 'damaged'] = found
  expect(found).toEqual(found.map(() => first))
  return first
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
    const bytes = await grain({ progressive })
    expect(bytes.byteLength).toBeGreaterThan(300_000)
    expect(check(bytes)).toBe('whole')
  })

  test('with whatever comes behind its end', () => {
    const tail = Buffer.from('<html><script>')
    expect(check(Buffer.concat([demo, tail]))).toBe('whole')
  })

  test('with filling before its markers', () => {
    const filled = Buffer.concat([
      demo.subarray(0, 2),
      Buffer.from([0xff, 0xff, 0xff]),
      demo.subarray(2),
    ])
    expect(check(filled)).toBe('whole')
  })
})

describe('a JPEG is incomplete', () => {
  test.each([true, false])(
    'wherever it is cut off; progressive: %s',
    async (progressive) => {
      const bytes = await grain({ progressive })
      for (let share = 0.001; share < 1; share += 0.0173) {
        const part = bytes.subarray(0, Math.floor(bytes.byteLength * share))
        expect(check(part)).toBe('incomplete')
      }
      for (const missing of [1, 2, 3]) {
        expect(check(bytes.subarray(0, -missing))).toBe('incomplete')
      }
    },
  )

  test('though the thumbnail inside it is whole', async () => {
    const thumbnail = await openPicture(demo).resize(160).jpeg().toBuffer()
    const bytes = withSegment(demo, 0xe1, thumbnail)
    expect(check(bytes)).toBe('whole')
    expect(check(bytes.subarray(0, thumbnail.byteLength + 2000))).toBe(
      'incomplete',
    )
  })

  test('when the rest of it was never filled in', () => {
    const half = Math.floor(demo.byteLength / 2)
    const blank = Buffer.alloc(demo.byteLength - half)
    expect(check(Buffer.concat([demo.subarray(0, half), blank]))).toBe(
      'incomplete',
    )
  })
})

describe('a JPEG is damaged', () => {
  test('when it ends before it has begun', () => {
    expect(check(Buffer.from([0xff, 0xd8, 0xff, 0xd9]))).toBe('damaged')
  })

  // ISO/IEC 10918-1 B.2.4.2: sixteen counts of codes by length, then their values.
  test.each([
    ['more codes of one bit than there are', [3, ...Array<number>(15).fill(0)]],
    ['more codes than any table has', Array<number>(16).fill(255)],
  ])('when a table has %s', (_name, counts) => {
    const values = Buffer.alloc(counts.reduce((sum, one) => sum + one, 0))
    const table = Buffer.concat([Buffer.from([0, ...counts]), values])
    expect(check(withSegment(demo, 0xc4, table))).toBe('damaged')
  })
})

test.each([3, 10_000])(
  'a JPEG with %i bytes between its markers is flawed',
  (length) => {
    const bytes = Buffer.concat([
      demo.subarray(0, 2),
      Buffer.alloc(length, 1),
      demo.subarray(2),
    ])
    expect(check(bytes)).toBe('flawed')
  },
)

test('what does not begin as a JPEG is none', () => {
  expect(check(demo.subarray(1))).toBe('damaged')
  expect(check(Buffer.concat([Buffer.from('II*\0'), demo]))).toBe('damaged')
})

test('a JPEG that only a decoder can judge is left to it', () => {
  const bytes = Buffer.from(demo)
  const frame = bytes.indexOf(Buffer.from([0xff, 0xc0]))
  expect(frame).toBeGreaterThan(0)
  // Lossless, process 14: ISO/IEC 10918-1 table B.1.
  bytes[frame + 1] = 0xc3
  expect(check(bytes)).toBe('unusual')
})

test('a JPEG that comes byte by byte is followed all the same', () => {
  const small = demo.subarray(0, 20_000)
  for (const bytes of [demo, small]) {
    const walk = jpegWalk()
    for (const piece of piecesOf(bytes, 1)) walk.take(piece)
    expect(walk.end()).toBe(bytes === demo ? 'whole' : 'incomplete')
  }
})

describe('what stands before the coded picture', () => {
  /** How far it had come when it was told, and what. */
  function startOf(bytes: Buffer, pieceLength: number) {
    const told: { readonly start: Buffer; readonly after: number }[] = []
    let given = 0
    const walk = jpegWalk((start) => told.push({ start, after: given }))
    for (const piece of piecesOf(bytes, pieceLength)) {
      given += piece.byteLength
      walk.take(piece)
    }
    expect(told.length).toBeLessThan(2)
    return told[0]
  }

  // Of this photo alone: a scan with three components, ISO/IEC 10918-1 B.2.3.
  const scan = demo.lastIndexOf(Buffer.from([0xff, 0xda, 0, 12, 3]))
  const scanEnd = scan + 2 + 12

  test.each([1, 100, 4099, 65_536])(
    'is told as soon as it is there, in pieces of %i bytes',
    (length) => {
      const { start, after } = startOf(demo, length) ?? expect.fail()
      expect(after).toBe(Math.ceil(scanEnd / length) * length)
      expect(start.byteLength).toBe(after)
      expect(start.equals(demo.subarray(0, after))).toBe(true)
    },
  )

  test('is told once, also of a picture in many scans', async () => {
    expect(startOf(await grain({ progressive: true }), 1000)).toBeDefined()
  })

  test('is not told where it is long', () => {
    let long: Buffer = demo
    for (let count = 0; count < 4; count += 1) {
      long = withSegment(long, 0xec, Buffer.alloc(65_533))
    }
    expect(check(long)).toBe('whole')
    expect(startOf(long, 65_536)).toBeUndefined()
  })

  test.each([
    ['filling', Buffer.from([0xff])],
    ['what does not belong', Buffer.from([1, 2, 3])],
  ])('is not told where it holds %s', (_name, odd) => {
    const bytes = Buffer.concat([demo.subarray(0, 2), odd, demo.subarray(2)])
    expect(startOf(bytes, 4099)).toBeUndefined()
  })
})
