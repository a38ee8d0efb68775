import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { crc32 } from 'node:zlib'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import yauzl from 'yauzl'
import { type ZipPlan, planZip, zipPieces } from '#core/backup/zip-plan'
import { instant } from '#core/units'

const madeAt = instant(Date.parse('2026-11-25T02:00:08Z'))

/** The archive of a plan, or a part of it, with the contents of its files given. */
function bytesOf(
  plan: ZipPlan,
  contents: readonly Buffer[],
  range?: { readonly first: number; readonly last: number },
): Buffer {
  return Buffer.concat(
    [...zipPieces(plan, range)].map((piece) =>
      piece.kind === 'frame'
        ? piece.bytes
        : (contents[piece.file] ?? Buffer.alloc(0)).subarray(
            piece.first,
            piece.last + 1,
          ),
    ),
  )
}

function planOf(files: Readonly<Record<string, Buffer>>): ZipPlan {
  return planZip(
    Object.entries(files).map(([name, bytes]) => ({
      name,
      byteLength: bytes.byteLength,
      crc32: crc32(bytes),
    })),
    madeAt,
  )
}

async function read(zip: yauzl.ZipFile, entry: yauzl.Entry): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of await zip.openReadStreamPromise(entry)) {
    if (chunk instanceof Uint8Array) chunks.push(Buffer.from(chunk))
  }
  return Buffer.concat(chunks).toString()
}

const some = {
  'manifest.json': Buffer.from('{"a": 1}\n'),
  'originals/ab/abc.jpg': Buffer.from([...Array(300).keys()]),
  'originals/ff/empty.jpg': Buffer.alloc(0),
}

test('an independent reader finds each file with its bytes, its checksum and its moment', async () => {
  const zip = await yauzl.fromBufferPromise(
    bytesOf(planOf(some), Object.values(some)),
    { lazyEntries: true },
  )
  const found: Record<string, string> = {}
  for await (const entry of zip.eachEntry()) {
    found[entry.fileName] = await read(zip, entry)
    expect(entry.getLastModDate({ timezone: 'UTC' }).getTime()).toBe(madeAt)
    // A plain file, as stat(2) has it.
    expect((entry.externalFileAttributes >>> 16) & 0o170000).toBe(0o100000)
  }
  expect(found).toEqual(
    Object.fromEntries(
      Object.entries(some).map(([name, bytes]) => [name, bytes.toString()]),
    ),
  )
})

/** Info-ZIP's own test of an archive, where the machine has it. */
const hasUnzip = (() => {
  try {
    execFileSync('unzip', ['-v'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
})()

test.skipIf(!hasUnzip)('Info-ZIP finds no fault in it', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-zip-'))
  try {
    const file = path.join(folder, 'a.zip')
    writeFileSync(file, bytesOf(planOf(some), Object.values(some)))
    const said = execFileSync('unzip', ['-t', file], { encoding: 'utf8' })
    expect(said).toContain('No errors detected')
  } finally {
    rmSync(folder, { recursive: true })
  }
})

test('any part of it is that part of the whole', () => {
  const plan = planOf(some)
  const whole = bytesOf(plan, Object.values(some))
  expect(whole.byteLength).toBe(plan.byteLength)
  fc.assert(
    fc.property(
      fc.nat(plan.byteLength - 1),
      fc.nat(plan.byteLength - 1),
      (one, other) => {
        const range = {
          first: Math.min(one, other),
          last: Math.max(one, other),
        }
        const part = bytesOf(plan, Object.values(some), range)
        expect(part.equals(whole.subarray(range.first, range.last + 1))).toBe(
          true,
        )
      },
    ),
  )
})

/** A reader of an archive that is nowhere: its files are all zeros and are never made. */
class Unmade extends yauzl.RandomAccessReader {
  constructor(readonly plan: ZipPlan) {
    super()
  }
  override read(
    buffer: Buffer,
    offset: number,
    length: number,
    position: number,
    done: (error: Error | null) => void,
  ): void {
    let at = offset
    const range = { first: position, last: position + length - 1 }
    for (const piece of zipPieces(this.plan, range)) {
      if (piece.kind === 'frame') buffer.set(piece.bytes, at)
      at +=
        piece.kind === 'frame'
          ? piece.bytes.byteLength
          : piece.last - piece.first + 1
    }
    setImmediate(done, null)
  }
}

test('more than 65,535 files and 4 GiB, of files and of the whole, are found by the 64-bit records', async () => {
  const large = 5 * 2 ** 30
  const files = [...Array(66_000).keys()].map((number) => ({
    name: `originals/${number}.jpg`,
    byteLength: number % 6000 === 0 ? large : 4_000_000,
    crc32: number,
  }))
  const plan = planZip(files, madeAt)
  const zip = await yauzl.fromRandomAccessReaderPromise(
    new Unmade(plan),
    plan.byteLength,
    { lazyEntries: true },
  )
  expect(zip.entryCount).toBe(files.length)
  let at = 0
  let wrong = 0
  for await (const entry of zip.eachEntry()) {
    const file = files[at]
    const same =
      entry.fileName === file?.name &&
      entry.uncompressedSize === file.byteLength &&
      entry.crc32 === file.crc32
    if (!same) wrong += 1
    // Among them some whose place is beyond 4 GiB, and some that are larger than that.
    if (at % 6000 === 0 || at === files.length - 1) {
      const header = await zip.readLocalFileHeaderPromise(entry)
      expect(header.fileName.toString()).toBe(file?.name)
      expect(header.fileDataStart).toBeGreaterThan(
        entry.relativeOffsetOfLocalHeader,
      )
    }
    at += 1
  }
  expect(at).toBe(files.length)
  expect(wrong).toBe(0)
})

test.each([
  [{ name: 'größe.jpg', byteLength: 1, crc32: 0 }],
  [{ name: '', byteLength: 1, crc32: 0 }],
  [{ name: 'a', byteLength: -1, crc32: 0 }],
  [{ name: 'a', byteLength: 2 ** 53, crc32: 0 }],
  [{ name: 'a', byteLength: 1, crc32: 2 ** 32 }],
])('%o is no file of an archive', (file) => {
  expect(() => planZip([file], madeAt)).toThrow(RangeError)
})
