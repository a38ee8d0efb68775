import Database from 'libsql'
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { migrate } from '#services/database/migrate'

let root = ''
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-0002-'))
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

test('a journal from before the answers keeps its jobs, and can be answered', () => {
  const file = path.join(root, 'journal.db')
  const copies = path.join(root, 'copies')
  migrate(file, upTo('0001_journal'), copies, 'first')
  const before = new Database(file)
  before.exec(`
    INSERT INTO "Job" ("id", "title", "createdAt", "revision") VALUES ('j', 'Oak sideboard', 1792656000000, 4);
    INSERT INTO "Piece" ("id", "jobId", "position", "name", "kind") VALUES ('p', 'j', 0, 'sideboard', 'sideboard');
    INSERT INTO "Surface" ("id", "pieceId", "position", "name") VALUES ('s', 'p', 0, 'body');
    INSERT INTO "Step" ("id", "jobId", "kind", "createdAt") VALUES ('t', 'j', 'scuff', 1792656000000);
  `)
  before.close()

  const report = migrate(
    file,
    upTo('0001_journal', '0002_rule_answers'),
    copies,
    'second',
  )
  expect(report.applied).toEqual(['0002_rule_answers'])
  const after = new Database(file)
  after.exec('PRAGMA foreign_keys = ON')
  expect(
    after
      .prepare('SELECT "title", "revision", "soldAt", "deliveredAt" FROM "Job"')
      .all(),
  ).toEqual([
    { title: 'Oak sideboard', revision: 4, soldAt: null, deliveredAt: null },
  ])
  after.exec(
    `INSERT INTO "RuleAnswer" ("jobId", "rule", "surfaceId", "stepId", "answer", "answeredAt") VALUES ('j', 'oily-rags', 's', 't', 'done', 1792656000000)`,
  )
  after.exec(`DELETE FROM "Step" WHERE "id" = 't'`)
  expect(after.prepare('SELECT * FROM "RuleAnswer"').all()).toEqual([])
  after.close()
})
