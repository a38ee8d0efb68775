import Database from 'libsql'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { migrate } from '#services/database/migrate'

let root = ''
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-migrate-'))
  mkdirSync(path.join(root, 'migrations'))
  add(
    '0001_journal',
    `CREATE TABLE "Piece" ("id" TEXT NOT NULL PRIMARY KEY, "name" TEXT NOT NULL);
     CREATE TABLE "Surface" ("id" TEXT NOT NULL PRIMARY KEY, "pieceId" TEXT NOT NULL,
       FOREIGN KEY ("pieceId") REFERENCES "Piece" ("id") ON DELETE CASCADE);`,
  )
})
afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

function add(name: string, sql: string): void {
  const folder = path.join(root, 'migrations', name)
  mkdirSync(folder, { recursive: true })
  writeFileSync(path.join(folder, 'migration.sql'), sql)
}

const file = () => path.join(root, 'journal.db')
const copies = () => path.join(root, 'copies')

function run(stamp = '2026-10-22T08:00:00Z') {
  return migrate(file(), path.join(root, 'migrations'), copies(), stamp)
}

function query(sql: string, from = file()): unknown[] {
  const database = new Database(from)
  try {
    return database.prepare(sql).all()
  } finally {
    database.close()
  }
}

function write(sql: string): void {
  const database = new Database(file())
  database.exec(sql)
  database.close()
}

const sideboard = `INSERT INTO "Piece" VALUES ('p', 'sideboard');
  INSERT INTO "Surface" VALUES ('s1', 'p'), ('s2', 'p');`
const countSurfaces = 'SELECT count(*) AS surfaces FROM "Surface"'

describe('bringing a journal up to date', () => {
  test('makes a new one, and does nothing the second time', () => {
    expect(run()).toEqual({ applied: ['0001_journal'] })
    expect(run()).toEqual({ applied: [] })
    expect(existsSync(copies())).toBe(false)
  })

  test('redefines a table without taking away what belongs to its rows', () => {
    run()
    write(sideboard)
    // How SQLite changes a table: https://www.sqlite.org/lang_altertable.html section 7.
    add(
      '0002_kind',
      `CREATE TABLE "new" ("id" TEXT NOT NULL PRIMARY KEY, "name" TEXT NOT NULL, "kind" TEXT NOT NULL DEFAULT 'other');
       INSERT INTO "new" ("id", "name") SELECT "id", "name" FROM "Piece";
       DROP TABLE "Piece";
       ALTER TABLE "new" RENAME TO "Piece";`,
    )
    expect(run().applied).toEqual(['0002_kind'])
    expect(query(countSurfaces)).toEqual([{ surfaces: 2 }])
    expect(query('SELECT "kind" FROM "Piece"')).toEqual([{ kind: 'other' }])
  })

  test('copies it first, with what is still in its log', () => {
    run()
    const open = new Database(file())
    open.exec('PRAGMA journal_mode = WAL; PRAGMA wal_autocheckpoint = 0')
    open.exec(sideboard)
    add('0002_note', 'ALTER TABLE "Piece" ADD COLUMN "note" TEXT')
    const { copy } = run('2026-10-23T08:00:00Z')
    open.close()
    expect(copy).toBe(
      path.join(copies(), 'before-0002_note-2026-10-23T08-00-00Z.db'),
    )
    expect(query(countSurfaces, copy)).toEqual([{ surfaces: 2 }])
    const columns = query('PRAGMA table_info("Piece")', copy)
    expect(columns).toHaveLength(2)
  })

  test('stops at a change that would leave rows that point at nothing, and changes nothing', () => {
    run()
    write(sideboard)
    add('0002_loss', 'DELETE FROM "Piece"')
    expect(() => run()).toThrow(/2 rows that point at nothing/)
    expect(query('SELECT count(*) AS pieces FROM "Piece"')).toEqual([
      { pieces: 1 },
    ])
    expect(query('SELECT "name" FROM "_Migration"')).toEqual([
      { name: '0001_journal' },
    ])
  })

  test('takes back the whole of a change that fails half-way', () => {
    run()
    write(sideboard)
    add(
      '0002_half',
      'ALTER TABLE "Piece" ADD COLUMN "note" TEXT; INSERT INTO "Nowhere" VALUES (1);',
    )
    expect(() => run()).toThrow(/Nowhere/)
    expect(query('PRAGMA table_info("Piece")')).toHaveLength(2)
    add('0002_half', 'ALTER TABLE "Piece" ADD COLUMN "note" TEXT;')
    expect(run('2026-10-23T08:00:00Z').applied).toEqual(['0002_half'])
  })
})

describe('a journal is not opened', () => {
  test('when a newer program has changed it, and the message says what to do', () => {
    add('0002_note', 'ALTER TABLE "Piece" ADD COLUMN "note" TEXT')
    run()
    rmSync(path.join(root, 'migrations', '0002_note'), { recursive: true })
    expect(() => run()).toThrow(
      /last opened by a newer Coatbook.*0002_note.*Install the newer version/,
    )
  })

  test('when a change that it has is not the one that the program holds', () => {
    run()
    write(sideboard)
    add('0001_journal', 'CREATE TABLE "Piece" ("id" INTEGER)')
    expect(() => run()).toThrow(/0001_journal.*not the one/)
    expect(query(countSurfaces)).toEqual([{ surfaces: 2 }])
  })

  test('but other line ends are no other change', () => {
    run()
    const sql = `CREATE TABLE "Other" ("id" TEXT NOT NULL PRIMARY KEY);\nSELECT 1;\n`
    add('0002_other', sql)
    run()
    add('0002_other', sql.replaceAll('\n', '\r\n'))
    expect(run()).toEqual({ applied: [] })
    expect(readdirSync(copies())).toHaveLength(1)
  })
})
