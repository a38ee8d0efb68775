import 'server-only'
import { createHash, randomUUID } from 'node:crypto'
import { createReadStream, writevSync } from 'node:fs'
import {
  type FileHandle,
  mkdir,
  open,
  readdir,
  rename,
  rm,
  stat,
  writeFile,
} from 'node:fs/promises'
import path from 'node:path'
import { Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { crc32 } from 'node:zlib'
import { flushFolder } from '#services/files/flush-folder'
import {
  type Arrival,
  type PhotoStore,
  headBytes,
} from '#services/photo-store/photo-store'

const pieceBytes = 524_288
/** So much goes to the disk while more is still coming: its sender need not wait for all of it at the end. */
const flushBytes = 1_048_576
const markEnding = '.keeping'

/**
 * A photo store made of files: `originals/ab/ab12…`, with what is still arriving in a folder of its own.
 *
 * Both folders must lie on one file system, so that a rename moves a file whole or not at all.
 */
export function diskPhotoStore(folders: {
  readonly originals: string
  readonly arriving: string
}): PhotoStore {
  const place = (sha256: string) =>
    path.join(folders.originals, prefix(sha256), sha256)
  const mark = (arrival: Arrival) =>
    path.join(
      folders.arriving,
      `${arrival.sha256}.${path.basename(arrival.path)}${markEnding}`,
    )

  // By hash: how many arrivals are on their way to their record, and removals that they wait for.
  const keeping = new Map<string, number>()
  const removing = new Map<string, Promise<unknown>>()

  const isOver = (sha256: string) => {
    const left = (keeping.get(sha256) ?? 1) - 1
    if (left > 0) keeping.set(sha256, left)
    else keeping.delete(sha256)
  }

  return {
    arrive: (bytes, maximumBytes, look) =>
      arrive(folders.arriving, bytes, maximumBytes, look),
    keep: async (arrival) => {
      const target = place(arrival.sha256)
      keeping.set(arrival.sha256, (keeping.get(arrival.sha256) ?? 0) + 1)
      await removing.get(arrival.sha256)?.catch(() => undefined)
      await Promise.all([
        arrival.flushed,
        // Between the rename and the record the program may end: the mark says then whose record is missing.
        writeFile(mark(arrival), ''),
        makeFolder(folders.originals, prefix(arrival.sha256)),
      ])
      // The same bytes may be there already; a rename over them changes nothing and mends a damaged copy.
      await rename(arrival.path, target)
      await flushFolder(path.dirname(target))
    },
    settle: async (arrival) => {
      isOver(arrival.sha256)
      await rm(mark(arrival), { force: true })
    },
    takeBack: async (arrival, isRecorded) => {
      const { sha256 } = arrival
      const known = await isRecorded(sha256).finally(() => {
        isOver(sha256)
      })
      // The same bytes may be on their way to another record.
      if (!known && !keeping.has(sha256))
        await rm(place(sha256), { force: true })
      await rm(mark(arrival), { force: true })
    },
    discard: async (arrival) => {
      await arrival.flushed.catch(() => undefined)
      await rm(arrival.path, { force: true })
    },
    stat: async (sha256) => {
      const size = await sizeOf(place(sha256))
      return size === undefined ? undefined : { byteLength: size }
    },
    path: place,
    open: (sha256, range) =>
      createReadStream(
        place(sha256),
        range === undefined ? {} : { start: range.first, end: range.last },
      ),
    remove: async (sha256, isUnused) => {
      if (keeping.has(sha256)) return false
      const removal = isUnused().then(async (unused) => {
        if (unused) await rm(place(sha256), { force: true })
        return unused
      })
      removing.set(sha256, removal)
      return removal.finally(() => removing.delete(sha256))
    },
    removeLeftovers: async (isRecorded) => {
      await mkdir(folders.arriving, { recursive: true })
      const names = await readdir(folders.arriving)
      for (const name of names) {
        const sha256 = markedHash(name)
        if (sha256 !== undefined && !(await isRecorded(sha256))) {
          await rm(place(sha256), { force: true })
        }
        // Last, so that a sweep cut short is done again.
        const leftover = path.join(folders.arriving, name)
        await rm(leftover, { recursive: true, force: true })
      }
      return names.length
    },
  }
}

async function arrive(
  folder: string,
  bytes: AsyncIterable<Uint8Array>,
  maximumBytes: number,
  look: (piece: Buffer) => void = () => undefined,
): Promise<Arrival | 'too-large'> {
  await mkdir(folder, { recursive: true })
  const file = path.join(folder, randomUUID())
  const hash = createHash('sha256')
  const handle = await open(file, 'wx')
  let byteLength = 0
  let checksum = 0
  let head = Buffer.alloc(0)
  let kept = false
  const early = flushWhileWriting(handle)
  const take = (chunks: readonly Buffer[]): void => {
    const length = lengthOf(chunks)
    byteLength += length
    if (byteLength > maximumBytes) return
    if (head.byteLength < headBytes) {
      // A copy: what a chunk lies in is much larger, and would be held with it.
      head = Buffer.concat([head, ...chunks], Math.min(headBytes, byteLength))
    }
    writeAll(handle.fd, chunks)
    early.wrote(length)
    for (const chunk of chunks) {
      hash.update(chunk)
      checksum = crc32(chunk, checksum)
      look(chunk)
    }
  }
  try {
    await pipeline(bytes, sinkOf(take))
    kept = byteLength <= maximumBytes
  } finally {
    if (!kept) {
      await handle.close()
      await rm(file, { force: true })
    }
  }
  if (!kept) return 'too-large'
  const flushed = flushAndClose(handle, early.flushed)
  // A failure is met by who keeps it; what is discarded needs no flush.
  flushed.catch(() => undefined)
  return {
    path: file,
    byteLength,
    head,
    sha256: hash.digest('hex'),
    crc32: checksum,
    flushed,
  }
}

/**
 * Hands chunks on as they came, many at a time: a write for each costs more than the writing, and every copy of a photo
 * brings the next collection of garbage nearer, for which its sender waits too.
 */
function sinkOf(take: (chunks: readonly Buffer[]) => void): Writable {
  let waiting: Buffer[] = []
  let waitingBytes = 0
  const takeWaiting = (done: (error?: Error | null) => void): void => {
    try {
      take(waiting)
      waiting = []
      waitingBytes = 0
      done()
    } catch (error) {
      done(error instanceof Error ? error : new Error(String(error)))
    }
  }
  return new Writable({
    highWaterMark: pieceBytes,
    write: (chunk: Buffer, _encoding, done) => {
      waiting.push(chunk)
      waitingBytes += chunk.byteLength
      if (waitingBytes < pieceBytes) done()
      else takeWaiting(done)
    },
    final: takeWaiting,
  })
}

/**
 * Without a break, as the database is written too: bytes go into the system's memory, and to have another thread put them
 * there takes longer than to do it. Waiting for the disk is for the flush. A disk that is nearly full may take a part;
 * the next try then says what is wrong.
 */
function writeAll(file: number, chunks: readonly Buffer[]): void {
  let left = chunks
  while (left.length > 0) left = without(left, writevSync(file, left))
}

function without(chunks: readonly Buffer[], length: number): readonly Buffer[] {
  let over = length
  return chunks.flatMap((chunk) => {
    const taken = Math.min(over, chunk.byteLength)
    over -= taken
    return taken === chunk.byteLength ? [] : [chunk.subarray(taken)]
  })
}

function lengthOf(chunks: readonly Buffer[]): number {
  return chunks.reduce((sum, chunk) => sum + chunk.byteLength, 0)
}

type EarlyFlush = {
  /** So many bytes more are written. */
  readonly wrote: (byteLength: number) => void
  /** Rejects when some of it failed: the system says so once, to the flush that was under way. */
  readonly flushed: () => Promise<void>
}

/** Sends what is written to the disk while more is still coming, a flush at a time. */
function flushWhileWriting(handle: FileHandle): EarlyFlush {
  let waiting = 0
  let isFlushing = false
  let flushed = Promise.resolve()
  const flush = async () => {
    try {
      await handle.datasync()
    } finally {
      isFlushing = false
    }
  }
  return {
    wrote: (byteLength) => {
      waiting += byteLength
      if (isFlushing || waiting < flushBytes) return
      waiting = 0
      isFlushing = true
      flushed = flushed.then(flush)
      // Met at the end, by who keeps it.
      flushed.catch(() => undefined)
    },
    flushed: () => flushed,
  }
}

async function flushAndClose(
  handle: FileHandle,
  early: () => Promise<void>,
): Promise<void> {
  try {
    await Promise.all([early(), handle.sync()])
  } finally {
    await handle.close()
  }
}

/** Names are hashes and nothing else: no request can name a file outside the store. */
function prefix(sha256: string): string {
  if (!/^[0-9a-f]{64}$/.test(sha256)) {
    throw new RangeError(
      `prefix: expected 64 hexadecimal digits, got ${sha256}`,
    )
  }
  return sha256.slice(0, 2)
}

async function makeFolder(parent: string, name: string): Promise<void> {
  const made = await mkdir(path.join(parent, name), { recursive: true })
  // A new folder is itself an entry that a power cut can take away.
  if (made === undefined) return
  await flushFolder(parent)
  await flushFolder(path.dirname(parent))
}

async function sizeOf(file: string): Promise<number | undefined> {
  try {
    return (await stat(file)).size
  } catch (error) {
    if (isMissing(error)) return undefined
    throw error
  }
}

function markedHash(name: string): string | undefined {
  return name.endsWith(markEnding)
    ? /^[0-9a-f]{64}(?=\.)/.exec(name)?.[0]
    : undefined
}

function isMissing(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ENOENT'
}
