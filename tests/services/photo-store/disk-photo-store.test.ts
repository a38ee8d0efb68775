import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { diskPhotoStore } from '#services/photo-store/disk-photo-store'

let root = ''
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-store-'))
})
afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

const folders = () => ({
  originals: path.join(root, 'originals'),
  arriving: path.join(root, 'arriving'),
})

async function* pieces(...texts: string[]): AsyncGenerator<Uint8Array> {
  for (const text of texts) {
    await Promise.resolve()
    yield Buffer.from(text)
  }
}

async function* brokenOff(): AsyncGenerator<Uint8Array> {
  yield Buffer.from('the first half')
  await Promise.resolve()
  throw new Error('the sender went away')
}

async function textOf(stream: AsyncIterable<unknown>): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of stream) {
    if (chunk instanceof Uint8Array) chunks.push(Buffer.from(chunk))
  }
  return Buffer.concat(chunks).toString()
}

function files(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name)
}

test('a photo is found under the SHA-256 of its bytes', async () => {
  const store = diskPhotoStore(folders())
  const arrival = await store.arrive(pieces('a', 'b', 'c'), 100)
  // FIPS 180-2, appendix B.1: the SHA-256 of "abc".
  const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'
  expect(arrival).toMatchObject({ sha256: abc, byteLength: 3 })
  if (arrival === 'too-large') return
  await store.keep(arrival)
  await store.settle(arrival)
  expect(await store.stat(abc)).toEqual({ byteLength: 3 })
  expect(await textOf(store.open(abc))).toBe('abc')
  expect(await textOf(store.open(abc, { first: 1, last: 1 }))).toBe('b')
  expect(files(folders().arriving)).toEqual([])
})

test('the same bytes twice are one file', async () => {
  const store = diskPhotoStore(folders())
  for (const parts of [['ab', 'c'], ['abc']]) {
    const arrival = await store.arrive(pieces(...parts), 100)
    if (arrival === 'too-large') throw new Error('too large')
    await store.keep(arrival)
    await store.settle(arrival)
  }
  expect(files(folders().originals)).toHaveLength(1)
  expect(files(folders().arriving)).toEqual([])
})

test('a photo that arrives again mends a copy that was damaged', async () => {
  const store = diskPhotoStore(folders())
  const first = await store.arrive(pieces('abc'), 100)
  if (first === 'too-large') throw new Error('too large')
  await store.keep(first)
  writeFileSync(store.path(first.sha256), 'ab')
  const again = await store.arrive(pieces('abc'), 100)
  if (again !== 'too-large') await store.keep(again)
  expect(await textOf(store.open(first.sha256))).toBe('abc')
})

test('what is too large is read to its end and not stored', async () => {
  const store = diskPhotoStore(folders())
  let read = 0
  async function* large(): AsyncGenerator<Uint8Array> {
    for (let count = 0; count < 50; count += 1) {
      await Promise.resolve()
      read += 1
      yield new Uint8Array(1000)
    }
  }
  expect(await store.arrive(large(), 10_000)).toBe('too-large')
  expect(read).toBe(50)
  expect(files(folders().arriving)).toEqual([])
  const exact = await store.arrive(pieces('abc'), 3)
  expect(exact).toMatchObject({ byteLength: 3 })
})

test('an arrival that breaks off leaves nothing behind', async () => {
  const store = diskPhotoStore(folders())
  await expect(store.arrive(brokenOff(), 100)).rejects.toThrow('went away')
  expect(files(folders().arriving)).toEqual([])
})

test('a photo whose first part the disk refused is not kept, though its end was taken', async () => {
  const store = diskPhotoStore(folders())
  const probe = await open(path.join(root, 'probe'), 'w')
  await probe.close()
  const handles = Object.getPrototypeOf(probe) as typeof probe
  const refused = Object.assign(new Error('EIO: i/o error, fdatasync'), {
    code: 'EIO',
  })
  const flush = vi.spyOn(handles, 'datasync').mockRejectedValueOnce(refused)
  try {
    async function* large(): AsyncGenerator<Uint8Array> {
      for (let count = 0; count < 8; count += 1) {
        await Promise.resolve()
        yield new Uint8Array(500_000)
      }
    }
    const arrival = await store.arrive(large(), 10_000_000)
    if (arrival === 'too-large') throw new Error('too large')
    // The system tells of a failure once: the last flush knows nothing of it.
    expect(flush).toHaveBeenCalled()
    await expect(store.keep(arrival)).rejects.toThrow('EIO')
    expect(files(folders().originals)).toEqual([])
  } finally {
    flush.mockRestore()
  }
})

const hashOf = (text: string) => createHash('sha256').update(text).digest('hex')

async function keepText(text: string, settled: boolean): Promise<void> {
  const store = diskPhotoStore(folders())
  const arrival = await store.arrive(pieces(text), 100)
  if (arrival === 'too-large') throw new Error('too large')
  await store.keep(arrival)
  if (settled) await store.settle(arrival)
}

test('what a crash left behind is cleared away, and kept photos stay', async () => {
  const store = diskPhotoStore(folders())
  await keepText('kept', true)
  await store.arrive(pieces('left behind'), 100)
  const nothing = () => Promise.resolve(false)
  expect(await store.removeLeftovers(nothing)).toBe(1)
  expect(files(folders().arriving)).toEqual([])
  expect(files(folders().originals)).toEqual([hashOf('kept')])
})

test('a photo that was kept but never recorded is cleared away, and one that was recorded stays', async () => {
  const store = diskPhotoStore(folders())
  await keepText('recorded', false)
  await keepText('not recorded', false)
  const recorded = (sha256: string) =>
    Promise.resolve(sha256 === hashOf('recorded'))
  expect(await store.removeLeftovers(recorded)).toBe(2)
  expect(files(folders().arriving)).toEqual([])
  expect(files(folders().originals)).toEqual([hashOf('recorded')])
})

test('a name that is no hash never reaches the file system', () => {
  const store = diskPhotoStore(folders())
  expect(() => store.path('../../etc/passwd')).toThrow(RangeError)
  expect(() => store.path('AB'.repeat(32))).toThrow(RangeError)
})

test('a photo that is not there is not there', async () => {
  const store = diskPhotoStore(folders())
  expect(await store.stat('0'.repeat(64))).toBeUndefined()
})
