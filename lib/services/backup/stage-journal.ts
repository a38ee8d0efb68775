import 'server-only'
import path from 'node:path'
import { JSONParser } from '@streamparser/json'
import Database from 'libsql'
import { archiveNames } from '#core/backup/archive-names'
import { leftOutTables } from '#core/backup/backed-up-tables'
import { BackupFlaw } from '#services/backup/backup-flaw'
import { journalFormat } from '#services/backup/journal-file'
import { recordFlaw } from '#services/backup/record-bounds'
import { recordName, rowFromJson } from '#services/backup/row-json'
import {
  type TableShape,
  isRow,
  placeholder,
  readShape,
  readTableShapes,
  rowsOf,
  selected,
} from '#services/backup/table-shape'
import { migrate, readMigrations } from '#services/database/migrate'

/** Gives the bytes of `journal.json`; asked for them twice. */
type JournalBytes = () => AsyncIterable<Uint8Array>

/**
 * Makes a database of its own from `journal.json`, as it was when the backup was made, and brings it up to this program's
 * version by the same migrations that a journal in use goes through. No more than a record of it is held at a time.
 *
 * @param folder an empty folder for it
 * @returns the database's file
 * @throws BackupFlaw when it is no journal, or one of a newer program
 */
export async function stageJournal(
  bytes: JournalBytes,
  folder: string,
  migrationsFolder: string,
): Promise<string> {
  const file = path.join(folder, 'staged.db')
  const last = await readLastMigration(bytes(), migrationsFolder)
  migrate(file, migrationsFolder, folder, 'staged', last)
  await fill(file, bytes())
  try {
    migrate(file, migrationsFolder, folder, 'staged')
  } catch (error) {
    throw new BackupFlaw(
      `Its journal cannot be brought up to this version (${messageOf(error)}).`,
    )
  }
  refuseWhatCannotBe(file)
  return file
}

/** What the interface would not take does not come by a backup: it is looked at as this version has it. */
function refuseWhatCannotBe(file: string): void {
  const database = new Database(file, { readonly: true })
  try {
    for (const shape of readTableShapes(database)) {
      const rows = database
        .prepare(`SELECT ${selected(shape)} FROM "${shape.name}"`)
        .iterate()
      for (const row of rows) {
        const flaw = isRow(row) ? recordFlaw(shape.name, row) : undefined
        if (flaw === undefined) continue
        throw new BackupFlaw(`${recordName(shape, row)} ${flaw}`)
      }
    }
  } finally {
    database.close()
  }
}

/** The last migration that the journal of a backup had been through. */
async function readLastMigration(
  bytes: AsyncIterable<Uint8Array>,
  migrationsFolder: string,
): Promise<string> {
  const head = new Map<unknown, unknown>()
  await parse(
    bytes,
    ['$.format', '$.version', '$.migrations'],
    ({ key, value }) => {
      head.set(key, value)
    },
  )
  if (head.get('format') !== journalFormat.format) {
    throw new BackupFlaw(
      `Its ${archiveNames.journal} is no journal of Coatbook.`,
    )
  }
  const ours = readMigrations(migrationsFolder).map((one) => one.name)
  const theirs = head.get('migrations')
  if (!isList(theirs) || theirs.length === 0) {
    throw new BackupFlaw('Its journal does not say which version it is of.')
  }
  const known =
    head.get('version') === journalFormat.version &&
    theirs.every((name, index) => name === ours[index])
  const last = ours[theirs.length - 1]
  if (!known || last === undefined) {
    throw new BackupFlaw(
      'It was made by a newer Coatbook. Install that one first.',
    )
  }
  return last
}

async function fill(
  file: string,
  bytes: AsyncIterable<Uint8Array>,
): Promise<void> {
  const database = new Database(file)
  try {
    database.exec('PRAGMA foreign_keys = OFF')
    // Nothing is lost if this copy is.
    database.exec('PRAGMA synchronous = OFF')
    database.exec('BEGIN')
    const tables = new Map(
      namesOfTables(database).map((name) => [
        name,
        intoTable(database, readShape(database, name)),
      ]),
    )
    await parse(bytes, ['$.tables.*.*'], ({ value, stack }) => {
      const name = String(stack[2]?.key)
      const add = tables.get(name)
      if (add === undefined) {
        throw new BackupFlaw(
          `Its journal has "${name.slice(0, 40)}", which is not known.`,
        )
      }
      add(value)
    })
    database.exec('COMMIT')
    const dangling = rowsOf(database, 'PRAGMA foreign_key_check').length
    if (dangling > 0) {
      throw new BackupFlaw(
        `In its journal ${dangling} records point at records that are not there.`,
      )
    }
  } finally {
    database.close()
  }
}

function namesOfTables(database: Database.Database): readonly string[] {
  return rowsOf(
    database,
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> '_Migration'",
  )
    .map((row) => String(row['name']))
    .filter((name) => leftOutTables[name] === undefined)
}

/** What adds a record to a table. */
function intoTable(
  database: Database.Database,
  shape: TableShape,
): (json: unknown) => void {
  const names = shape.columns.map((column) => `"${column.name}"`).join(', ')
  const marks = shape.columns
    .map((column) => placeholder(shape, column.name))
    .join(', ')
  const statement = database.prepare(
    `INSERT INTO "${shape.name}" (${names}) VALUES (${marks})`,
  )
  return (json) => {
    const row = rowFromJson(shape, json)
    if ('flaw' in row) throw new BackupFlaw(row.flaw)
    try {
      statement.run(...row.values)
    } catch (error) {
      throw new BackupFlaw(
        `${recordName(shape, json)} cannot be (${messageOf(error)}).`,
      )
    }
  }
}

type Found = Parameters<NonNullable<JSONParser['onValue']>>[0]

async function parse(
  bytes: AsyncIterable<Uint8Array>,
  paths: string[],
  onValue: (found: Found) => void,
): Promise<void> {
  const parser = new JSONParser({ paths, keepStack: false })
  let failure: Error | undefined
  parser.onValue = (found) => {
    failure ??= caught(() => {
      onValue(found)
    })
  }
  parser.onError = (error) => {
    failure ??= new BackupFlaw(
      `Its ${archiveNames.journal} is no JSON (${error.message}).`,
    )
  }
  for await (const chunk of bytes) {
    // The rest is read all the same, so that wrong bytes are told as wrong bytes.
    if (failure === undefined) parser.write(chunk)
  }
  if (failure === undefined && !parser.isEnded) parser.end()
  if (failure !== undefined) throw failure
}

function caught(work: () => void): Error | undefined {
  try {
    work()
    return undefined
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error))
  }
}

function isList(value: unknown): value is readonly unknown[] {
  return Array.isArray(value)
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
