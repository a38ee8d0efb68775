import Database from 'libsql'
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { migrate } from '#services/database/migrate'

let root = ''
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-0008-'))
})
afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

const migrations = path.join(process.cwd(), 'prisma', 'migrations')

/** A folder with the migrations up to one of them. */
function upTo(...names: readonly string[]): string {
  const folder = path.join(root, names.at(-1) ?? '')
  mkdirSync(folder)
  for (const name of names) {
    cpSync(path.join(migrations, name), path.join(folder, name), {
      recursive: true,
    })
  }
  return folder
}

test('a journal from before the captions keeps its jobs, and takes captions that go with their job', () => {
  const file = path.join(root, 'journal.db')
  const copies = path.join(root, 'copies')
  const before = [
    '0001_journal',
    '0002_rule_answers',
    '0003_photo_looks',
    '0004_receipts',
    '0005_write_ups',
    '0006_bin',
    '0007_placing',
  ]
  migrate(file, upTo(...before), copies, 'first')
  const old = new Database(file)
  old.exec(
    `INSERT INTO "Job" ("id", "title", "createdAt", "revision") VALUES ('j', 'Oak sideboard', 1792656000000, 4)`,
  )
  old.close()

  const report = migrate(
    file,
    upTo(...before, '0008_captions'),
    copies,
    'second',
  )
  expect(report.applied).toEqual(['0008_captions'])
  const after = new Database(file)
  after.exec('PRAGMA foreign_keys = ON')
  expect(after.prepare('SELECT "title", "revision" FROM "Job"').all()).toEqual([
    { title: 'Oak sideboard', revision: 4 },
  ])
  after.exec(
    `INSERT INTO "Captions" ("jobId", "text", "keptAt") VALUES ('j', 'WEBVTT', 1792656000000)`,
  )
  expect(
    after.prepare('SELECT "chapters", "settled" FROM "Captions"').all(),
  ).toEqual([{ chapters: null, settled: '[]' }])
  after.exec(`DELETE FROM "Job" WHERE "id" = 'j'`)
  expect(after.prepare('SELECT * FROM "Captions"').all()).toEqual([])
  after.close()
})
