import 'server-only'
import { createHash } from 'node:crypto'
import type { Readable } from 'node:stream'
import yauzl from 'yauzl'
import { isArchiveName } from '#core/backup/archive-names'
import { BackupFlaw } from '#services/backup/backup-flaw'

/** An archive whose directory has been looked through. */
export type Archive = {
  /** The size of each of its files, by name. */
  readonly sizes: ReadonlyMap<string, number>
  /**
   * The bytes of a file, which fail with `BackupFlaw` unless they are those that are expected: as many, and with that
   * hash. Read them to the end.
   *
   * @param sha256 absent: any bytes are read
   */
  readonly read: (name: string, sha256?: string) => AsyncGenerator<Uint8Array>
  readonly close: () => void
}

/** So much larger than they lie in the archive files may be: text seldom packs better than to a fiftieth. */
const mostGrowth = 200
const stored = 0
const deflated = 8
const localHeaderBytes = 30
/** Of the mode that a Unix writes: the kind of file. */
const kindMask = 0o170000
const plainFile = 0o100000

/**
 * Opens a zip file as a backup, and looks through its whole directory before anything of it is read: only files that
 * backups have are in it, each once, none of them a link, packed in a way that is known, and no two in the same place.
 *
 * @throws BackupFlaw when it is no sound zip file, or has what no backup has
 */
export async function openArchive(file: string): Promise<Archive> {
  const zip = await yauzl
    .openPromise(file, {
      lazyEntries: true,
      autoClose: false,
      validateEntrySizes: true,
      strictFileNames: true,
    })
    .catch((error: unknown) => {
      throw asFlaw(error)
    })
  try {
    const entries = new Map<string, yauzl.Entry>()
    for await (const entry of zip.eachEntry()) {
      // Other programs write folders down as well; they hold nothing.
      if (/^originals\/(?:[0-9a-f]{2}\/)?$/.test(entry.fileName)) continue
      refuseStrange(entry)
      if (entries.has(entry.fileName)) {
        throw new BackupFlaw(`It holds ${entry.fileName} twice.`)
      }
      entries.set(entry.fileName, entry)
    }
    refuseOverlaps([...entries.values()])
    return {
      sizes: new Map(
        [...entries].map(([name, entry]) => [name, entry.uncompressedSize]),
      ),
      read: (name, sha256) => {
        const entry = entries.get(name)
        if (entry === undefined) throw new BackupFlaw(`It has no ${name}.`)
        return checked(
          name,
          () => zip.openReadStreamPromise(entry),
          entry.uncompressedSize,
          sha256,
        )
      },
      close: () => {
        zip.close()
      },
    }
  } catch (error) {
    zip.close()
    throw asFlaw(error)
  }
}

function refuseStrange(entry: yauzl.Entry): void {
  const { fileName, compressionMethod, compressedSize, uncompressedSize } =
    entry
  const name = JSON.stringify(fileName.slice(0, 80))
  if (!isArchiveName(fileName)) {
    throw new BackupFlaw(`It holds ${name}, which no backup has.`)
  }
  const kind = (entry.externalFileAttributes >>> 16) & kindMask
  if (kind !== 0 && kind !== plainFile) {
    throw new BackupFlaw(`In it ${name} is no file but a link or the like.`)
  }
  if (entry.isEncrypted()) {
    throw new BackupFlaw(`In it ${name} is encrypted.`)
  }
  if (compressionMethod !== stored && compressionMethod !== deflated) {
    throw new BackupFlaw(`In it ${name} is packed in a way that is not known.`)
  }
  if (uncompressedSize > compressedSize * mostGrowth) {
    throw new BackupFlaw(
      `In it ${name} would grow more than ${mostGrowth} times when it is unpacked.`,
    )
  }
}

/** Files that share bytes are how a small archive becomes an endless one. */
function refuseOverlaps(entries: readonly yauzl.Entry[]): void {
  const inOrder = entries.toSorted(
    (one, other) =>
      one.relativeOffsetOfLocalHeader - other.relativeOffsetOfLocalHeader,
  )
  let end = 0
  for (const entry of inOrder) {
    const at = entry.relativeOffsetOfLocalHeader
    if (at < end) {
      throw new BackupFlaw('Two of its files lie in the same place.')
    }
    end = at + localHeaderBytes + entry.fileNameLength + entry.compressedSize
  }
}

async function* checked(
  name: string,
  open: () => Promise<Readable>,
  byteLength: number,
  sha256: string | undefined,
): AsyncGenerator<Uint8Array> {
  const hash = createHash('sha256')
  let seen = 0
  let stream: Readable | undefined
  try {
    stream = await open()
    for await (const chunk of stream) {
      if (!(chunk instanceof Uint8Array)) continue
      seen += chunk.byteLength
      hash.update(chunk)
      yield chunk
    }
  } catch (error) {
    throw asFlaw(error)
  } finally {
    stream?.destroy()
  }
  const found = hash.digest('hex')
  if (seen !== byteLength || found !== (sha256 ?? found)) {
    throw new BackupFlaw(`In it ${name} has other bytes than were put in.`)
  }
}

/** What the reader of zip files found wrong, in words for the owner; what the machine failed at stays as it is. */
function asFlaw(error: unknown): Error {
  if (error instanceof BackupFlaw) return error
  if (!(error instanceof Error)) return new Error(String(error))
  if ('syscall' in error) return error
  if (/end of central directory/i.test(error.message)) {
    return new BackupFlaw(
      'It is no zip file, or its end is missing: was it fetched or copied to the end?',
    )
  }
  return new BackupFlaw(`It is no sound zip file (${error.message}).`)
}
