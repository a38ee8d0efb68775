import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Database from 'libsql'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { writeJournalFile } from '#services/backup/journal-file'
import { stageJournal } from '#services/backup/stage-journal'
import { migrate } from '#services/database/migrate'

const migrations = path.join('prisma', 'migrations')
let root = ''
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-versions-'))
})
afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

const all = readdirSync(migrations)
  .filter((name) => /^\d/.test(name))
  .sort()

/** A journal as an earlier program had it, with a job, a step and its surfaces. */
function earlier(last: string): string {
  const file = path.join(root, `${last}.db`)
  migrate(file, migrations, root, 'then', last)
  const database = new Database(file)
  database.exec(`
    INSERT INTO "Workshop" VALUES ('workshop', 'Alder Yard', 'Europe/London', 'GBP', 'metric', 1766000000000);
    INSERT INTO "Job" ("id", "title", "createdAt") VALUES ('j', 'Oak “sideboard”', 1766000000001);
    INSERT INTO "Piece" ("id", "jobId", "position", "name", "kind") VALUES ('p', 'j', 0, 'sideboard', 'sideboard');
    INSERT INTO "Surface" ("id", "pieceId", "position", "name") VALUES ('top', 'p', 0, 'top'), ('body', 'p', 1, 'body');
    INSERT INTO "Step" ("id", "jobId", "kind", "thinningPercent", "createdAt") VALUES ('s', 'j', 'prime', 7.5, 1766000000002);
    INSERT INTO "StepSurface" ("stepId", "surfaceId", "coat") VALUES ('s', 'top', 1), ('s', 'body', NULL);
    INSERT INTO "AirReading" VALUES (1766000000003, 18.25, 55);`)
  database.close()
  return file
}

function dumpOf(file: string): unknown {
  const database = new Database(file)
  try {
    return [
      'Workshop',
      'Job',
      'Piece',
      'Surface',
      'Step',
      'StepSurface',
      'AirReading',
      '_Migration',
    ].map((table) =>
      database
        .prepare(
          `SELECT * FROM "${table}" ORDER BY ${table === 'StepSurface' ? '"surfaceId"' : '1'}`,
        )
        .all()
        .map((row: unknown) => ({ ...(row as object), appliedAt: null })),
    )
  } finally {
    database.close()
  }
}

// What the program itself makes of a journal of then, by opening it, is what a backup of then must become.
test.each(
  [...new Set([all[0], all[6], all.at(-2)])].filter((one) => one !== undefined),
)(
  'a backup from when the last change was %s becomes what that journal becomes',
  async (last) => {
    const then = earlier(last)
    const json = path.join(root, 'journal.json')
    await writeJournalFileOf(then, json)
    mkdirSync(path.join(root, 'staged'))
    const staged = await stageJournal(
      () => bytesOf(json),
      path.join(root, 'staged'),
      migrations,
    )
    const opened = path.join(root, 'opened.db')
    const database = new Database(then)
    database.prepare('VACUUM INTO ?').run(opened)
    database.close()
    migrate(opened, migrations, root, 'now')
    expect(dumpOf(staged)).toEqual(dumpOf(opened))
  },
)

test('a journal of a program that is newer is not taken for one of this', async () => {
  const newer = path.join(root, 'newer')
  cpSync(migrations, newer, { recursive: true })
  cpSync(
    path.join(migrations, all[0] ?? ''),
    path.join(newer, '9999_tomorrow'),
    {
      recursive: true,
    },
  )
  const then = earlier(all.at(-1) ?? '')
  const database = new Database(then)
  database.exec(
    `INSERT INTO "_Migration" VALUES ('9999_tomorrow', 'x', 'then')`,
  )
  database.close()
  const json = path.join(root, 'journal.json')
  await writeJournalFileOf(then, json)
  await expect(
    stageJournal(() => bytesOf(json), root, migrations),
  ).rejects.toThrow(/newer Coatbook/)
})

async function writeJournalFileOf(file: string, json: string): Promise<void> {
  const { written } = await writeJournalFile(file, json)
  expect(written.byteLength).toBe(readFileSync(json).byteLength)
}

async function* bytesOf(file: string): AsyncGenerator<Uint8Array> {
  await Promise.resolve()
  yield readFileSync(file)
}
