import 'server-only'
import { createHash } from 'node:crypto'
import { open } from 'node:fs/promises'
import { setImmediate as breathe } from 'node:timers/promises'
import { crc32 } from 'node:zlib'
import Database from 'libsql'
import { rowToJson } from '#services/backup/row-json'
import {
  type TableShape,
  isRow,
  readLevel,
  readTableShapes,
  rowsOf,
  selected,
} from '#services/backup/table-shape'

/** The format of `journal.json`; raised when a reader of the one before could not read it. */
export const journalFormat = { format: 'coatbook-journal', version: 1 } as const

/** A file that was written, with what an archive must know of it. */
export type WrittenFile = {
  readonly path: string
  readonly byteLength: number
  readonly sha256: string
  readonly crc32: number
}

/** An original as the journal records it. */
export type RecordedOriginal = {
  readonly sha256: string
  readonly byteLength: number
  readonly mediaType: string
  /** Of its bytes; null where it was kept before checksums were. */
  readonly crc32: number | null
}

const pieceBytes = 524_288
/** After so many rows others have their turn. */
const rowsAtOnce = 500

/**
 * Writes the whole journal as it is at one moment, a record a line, beside whatever else is being written meanwhile: the
 * database is read through a connection of its own, which sees one state from beginning to end and holds nobody up.
 *
 * @param databaseFile the journal's database; it need not be open in this process
 * @param file where to; made anew
 */
export async function writeJournalFile(
  databaseFile: string,
  file: string,
): Promise<{
  readonly written: WrittenFile
  readonly migrations: readonly string[]
  readonly originals: readonly RecordedOriginal[]
}> {
  const database = new Database(databaseFile)
  const out = await openWriter(file)
  try {
    database.exec('PRAGMA busy_timeout = 5000')
    database.exec('PRAGMA query_only = ON')
    database.exec('BEGIN')
    const migrations = readLevel(database)
    await out.write(
      `{\n"$schema": "journal.schema.json",\n"format": ${JSON.stringify(journalFormat.format)},\n"version": ${journalFormat.version},\n"migrations": ${JSON.stringify(migrations)},\n"tables": {`,
    )
    let first = true
    for (const shape of readTableShapes(database)) {
      await out.write(`${first ? '' : ','}\n${JSON.stringify(shape.name)}: [`)
      first = false
      await writeRows(database, shape, out)
      await out.write(']')
    }
    await out.write('\n}\n}\n')
    const originals = readOriginals(database)
    database.exec('COMMIT')
    return { written: await out.end(), migrations, originals }
  } finally {
    await out.close()
    database.close()
  }
}

async function writeRows(
  database: Database.Database,
  shape: TableShape,
  out: Writer,
): Promise<void> {
  const order = shape.key.map((name) => `"${name}"`).join(', ')
  const rows = database
    .prepare(`SELECT ${selected(shape)} FROM "${shape.name}" ORDER BY ${order}`)
    .iterate()
  let count = 0
  for (const row of rows) {
    if (!isRow(row)) continue
    const line = JSON.stringify(rowToJson(shape, row))
    await out.write(`${count === 0 ? '' : ','}\n${line}`)
    count += 1
    if (count % rowsAtOnce === 0) await breathe()
  }
}

function readOriginals(
  database: Database.Database,
): readonly RecordedOriginal[] {
  return rowsOf(database, 'SELECT * FROM "Original" ORDER BY "sha256"').map(
    (row) => ({
      sha256: String(row['sha256']),
      byteLength: Number(row['byteLength']),
      mediaType: String(row['mediaType']),
      // A journal of before has no such column.
      crc32: typeof row['crc32'] === 'number' ? row['crc32'] : null,
    }),
  )
}

type Writer = Awaited<ReturnType<typeof openWriter>>

/** Writes text to a new file in large pieces, with its size and checksums. */
export async function openWriter(file: string) {
  const handle = await open(file, 'wx', 0o600)
  const hash = createHash('sha256')
  let checksum = 0
  let byteLength = 0
  let waiting = ''
  const flush = async () => {
    const bytes = Buffer.from(waiting)
    waiting = ''
    hash.update(bytes)
    checksum = crc32(bytes, checksum)
    byteLength += bytes.byteLength
    await handle.writeFile(bytes)
  }
  return {
    write: async (text: string) => {
      waiting += text
      if (waiting.length >= pieceBytes) await flush()
    },
    end: async (): Promise<WrittenFile> => {
      await flush()
      return {
        path: file,
        byteLength,
        sha256: hash.digest('hex'),
        crc32: checksum,
      }
    },
    close: () => handle.close(),
  }
}
