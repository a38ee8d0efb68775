import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import Database from 'libsql'
import {
  copyDatabase,
  removeUnfinishedCopies,
} from '#services/database/copy-database'

/** One migration as it stands in the repository. */
type Migration = {
  readonly name: string
  readonly sql: string
  readonly checksum: string
}

export type MigrationReport = {
  readonly applied: readonly string[]
  /** Where the database was copied to before it was changed; absent for a new or unchanged one. */
  readonly copy?: string
}

/**
 * Brings a database file up to the program's migrations, in order.
 *
 * Each migration runs in a transaction of its own together with the row that records its checksum, so a
 * crash leaves either all of it or nothing. Foreign keys are off meanwhile, since SQLite redefines a table by
 * dropping it and would take its children along; they are checked before the commit. Before an existing database
 * is changed it is copied, whole or not at all.
 *
 * @param file the database; made when absent
 * @param copies folder for the copy
 * @param stamp becomes part of the copy's name, such as a date
 * @param last the name of the migration to stop after: all of them unless told
 * @throws Error when the database is newer than the program, or a migration that was applied has been altered
 */
export function migrate(
  file: string,
  migrationsFolder: string,
  copies: string,
  stamp: string,
  last?: string,
): MigrationReport {
  const migrations = readMigrations(migrationsFolder).filter(
    (migration) => last === undefined || migration.name <= last,
  )
  const existed = existsSync(file)
  mkdirSync(path.dirname(file), { recursive: true })
  removeUnfinishedCopies(copies)
  const database = new Database(file)
  try {
    database.exec('PRAGMA journal_mode = WAL')
    database.exec('PRAGMA synchronous = FULL')
    database.exec('PRAGMA busy_timeout = 5000')
    database.exec('PRAGMA foreign_keys = OFF')
    database.exec(
      'CREATE TABLE IF NOT EXISTS "_Migration" ("name" TEXT NOT NULL PRIMARY KEY, "checksum" TEXT NOT NULL, "appliedAt" TEXT NOT NULL)',
    )
    const applied = readApplied(database)
    refuseForeign(applied, migrations)
    const pending = migrations.slice(applied.length)
    if (pending.length === 0) return { applied: [] }

    let copy: string | undefined
    if (existed && applied.length > 0) {
      mkdirSync(copies, { recursive: true })
      copy = path.join(
        copies,
        `before-${pending[0]?.name ?? ''}-${stamp.replaceAll(/[^0-9A-Za-z]/g, '-')}.db`,
      )
      copyDatabase(database, copy)
    }
    for (const migration of pending) applyOne(database, migration, stamp)
    // Closing does not always bring the log into the file, and a copy of the file alone would then hold nothing.
    database.exec('PRAGMA wal_checkpoint(TRUNCATE)')
    const names = pending.map((one) => one.name)
    return copy === undefined ? { applied: names } : { applied: names, copy }
  } finally {
    database.close()
  }
}

/** The names of the migrations in a folder, in the order in which they apply. */
export function readMigrations(folder: string): readonly Migration[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
    .map((name) => {
      const sql = readFileSync(path.join(folder, name, 'migration.sql'), 'utf8')
      return {
        name,
        sql,
        checksum: createHash('sha256')
          .update(sql.replaceAll('\r\n', '\n'))
          .digest('hex'),
      }
    })
}

type AppliedRow = { readonly name: string; readonly checksum: string }

function readApplied(database: Database.Database): readonly AppliedRow[] {
  const rows: unknown[] = database
    .prepare('SELECT "name", "checksum" FROM "_Migration" ORDER BY "name"')
    .all()
  return rows.filter(isAppliedRow)
}

function isAppliedRow(row: unknown): row is AppliedRow {
  return (
    typeof row === 'object' &&
    row !== null &&
    'name' in row &&
    'checksum' in row
  )
}

function refuseForeign(
  applied: readonly AppliedRow[],
  migrations: readonly Migration[],
): void {
  for (const [index, row] of applied.entries()) {
    const known = migrations[index]
    if (known?.name !== row.name) {
      throw new Error(
        `This journal was last opened by a newer Coatbook (it has the change "${row.name}", which this one does not know). Install the newer version, or open the copy that it made in the folder "copies".`,
      )
    }
    if (known.checksum !== row.checksum) {
      throw new Error(
        `The change "${row.name}" of this journal is not the one that this Coatbook holds. The program's files were altered; install it again.`,
      )
    }
  }
}

function applyOne(
  database: Database.Database,
  migration: Migration,
  stamp: string,
): void {
  database.exec('BEGIN EXCLUSIVE')
  try {
    database.exec(migration.sql)
    const broken: unknown[] = database.prepare('PRAGMA foreign_key_check').all()
    if (broken.length > 0) {
      throw new Error(
        `The change "${migration.name}" would leave ${broken.length} rows that point at nothing.`,
      )
    }
    database
      .prepare(
        'INSERT INTO "_Migration" ("name", "checksum", "appliedAt") VALUES (?, ?, ?)',
      )
      .run(migration.name, migration.checksum, stamp)
    database.exec('COMMIT')
  } catch (error) {
    database.exec('ROLLBACK')
    throw error
  }
}
