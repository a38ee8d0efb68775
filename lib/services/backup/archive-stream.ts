import 'server-only'
import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { Readable } from 'node:stream'
import { zipPieces } from '#core/backup/zip-plan'
import type { WrittenFile } from '#services/backup/journal-file'
import type { BackupPlan } from '#services/backup/plan-backup'
import type { ByteRange } from '#services/photo-store/photo-store'

const pieceBytes = 524_288

/** A file is not, or no longer, what the plan of an archive says: the archive would be wrong from here on. */
export class ChangedFile extends Error {}

/**
 * The bytes of a planned backup, or a part of them, read as they are asked for and no sooner. Every file that is read
 * from its beginning to its end is held against its hash on the way.
 *
 * The stream fails with `ChangedFile` when a file has gone or has other bytes than the plan says.
 */
export function archiveStream(plan: BackupPlan, range?: ByteRange): Readable {
  return Readable.from(pieces(plan, range), {
    objectMode: false,
    highWaterMark: pieceBytes,
  })
}

async function* pieces(
  plan: BackupPlan,
  range: ByteRange | undefined,
): AsyncGenerator<Uint8Array> {
  for (const piece of zipPieces(plan.zip, range)) {
    if (piece.kind === 'frame') {
      yield piece.bytes
      continue
    }
    const source = plan.sources[piece.file]
    if (source === undefined) throw new RangeError('no such file in the plan')
    yield* partOf(source, { first: piece.first, last: piece.last })
  }
}

async function* partOf(
  { path, byteLength, sha256 }: WrittenFile,
  { first, last }: ByteRange,
): AsyncGenerator<Uint8Array> {
  const whole = first === 0 && last === byteLength - 1
  const hash = createHash('sha256')
  let seen = 0
  const stream = createReadStream(path, {
    start: first,
    end: last,
    highWaterMark: pieceBytes,
  })
  try {
    for await (const chunk of stream) {
      if (!(chunk instanceof Uint8Array)) continue
      seen += chunk.byteLength
      if (whole) hash.update(chunk)
      // What is wrong must not look whole to who gets it: its last bytes are only given once it is known to be right.
      if (whole && seen === byteLength && hash.digest('hex') !== sha256) break
      yield chunk
      if (seen === last - first + 1) return
    }
  } catch (error) {
    throw new ChangedFile(`${path} cannot be read.`, { cause: error })
  } finally {
    stream.destroy()
  }
  throw new ChangedFile(`${path} has changed since it was kept.`)
}
