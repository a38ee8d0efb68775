import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Database from 'libsql'
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest'
import { addMinutes, instant, minutesPerDay } from '#core/units'
import { openArchive } from '#services/backup/open-archive'
import { readManifest } from '#services/backup/read-manifest'
import { writeBackup } from '#services/backup/write-backup'
import { putInBin } from '#services/bin/bin-parts'
import { changeBinRules } from '#services/bin/bin-settings'
import { emptyDueBin } from '#services/bin/empty-bin'
import { checkJournal } from '#services/check/check-journal'
import { migrate } from '#services/database/migrate'
import { closeDatabase, database } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'
import { startKilling } from '../support/kill-work'
import {
  backupMoment,
  dump,
  fillJournal,
  hashesIn,
} from '../support/backup-journal'
import { makeJob, makeStep } from '../support/make-job'
import { makePhoto } from '../support/make-photo'
import { sendPhotos } from '../support/send-photos'
import { closeWorkshop, openWorkshop } from '../support/workshop'
import type { Work } from '../support/work-to-kill'

// Each kind of work is done once to its end, to learn how long it takes, and is then killed at moments spread over that
// time by chance. What must hold afterwards holds wherever it was cut. For more than a few set COATBOOK_FAULT_KILLS.
const kills = Number(process.env['COATBOOK_FAULT_KILLS'] ?? 6)
vi.setConfig({ testTimeout: 3_600_000 })

const killing = startKilling()
afterAll(() => {
  killing.end()
})
let before = ''
let folder = ''
beforeEach(() => {
  before = openWorkshop()
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-kills-'))
})
afterEach(async () => {
  await closeWorkshop(before)
  rmSync(folder, { recursive: true, force: true })
})

/** Has the work killed in copies of the data folder, and looks at each of them. */
async function killEach(
  work: Work,
  look: (root: string, round: number) => Promise<void>,
): Promise<number> {
  await closeDatabase()
  const copy = (name: string) => {
    const root = path.join(folder, name)
    cpSync(before, root, { recursive: true })
    return root
  }
  let span = await killing.finish(copy('whole'), work)
  let cut = 0
  for (let round = 0; round < kills; round += 1) {
    const root = copy(String(round))
    const after = Math.random() * span
    const stillAtIt = await killing.killAfter(after, root, work)
    if (stillAtIt) cut += 1
    // The machine may be busier now than it was, or less busy.
    span *= stillAtIt ? 1.1 : 0.6
    process.env['COATBOOK_DATA'] = root
    await look(root, round)
    await closeDatabase()
    rmSync(root, { recursive: true, force: true })
  }
  process.env['COATBOOK_DATA'] = before
  return cut
}

/** Opens the journal as the next start does, and has it looked through. */
async function findings(): Promise<readonly string[]> {
  await openPhotoStore()
  const { findings } = await checkJournal()
  await renditionsIdle()
  return findings
}

let width = 100
async function manyPhotos(jobId: string, count: number) {
  const photos = []
  for (let index = 0; index < count; index += 1) {
    // No two of the same bytes.
    width += 1
    const bytes = await makePhoto({ width })
    const sent = await sendPhotos(jobId, [[`${String(index)}.jpg`, bytes]])
    photos.push(...sent.photos)
  }
  await renditionsIdle()
  return photos
}

test('emptying the bin, cut short at any moment, leaves a sound journal and is done at the next look', async () => {
  const start = instant(Date.parse('2026-11-02T09:00:00Z'))
  const later = addMinutes(start, minutesPerDay)
  const [gone, stays] = [await makeJob('Gone'), await makeJob('Stays')]
  await makeStep(gone.id, 'prime', gone.surfaceIds)
  const removed = await manyPhotos(gone.id, 12)
  const [one] = removed
  const kept = await manyPhotos(stays.id, 3)
  await changeBinRules({ keepDays: 1, originalDays: 0 })
  await emptyDueBin(start)
  await putInBin({ kind: 'job', jobId: gone.id, id: gone.id }, start)
  const cut = await killEach(
    { does: 'empty the bin', now: later },
    async (root) => {
      const db = await database()
      const photos = await db.photo.count()
      const files = readdirSync(dataFolder(root).originals, {
        recursive: true,
        withFileTypes: true,
      }).filter((entry) => entry.isFile()).length
      // All of the job, or none of it; and no file goes before its record.
      expect([3, 15]).toContain(photos)
      expect(files).toBeGreaterThanOrEqual(photos)
      expect(await findings()).toEqual([])
      await emptyDueBin(later)
      expect(await db.photo.count()).toBe(3)
      const store = await openPhotoStore()
      expect(await store.stat(one?.sha256 ?? '')).toBeUndefined()
      for (const { sha256 } of kept) {
        expect(await store.stat(sha256)).toBeDefined()
      }
      expect(await findings()).toEqual([])
    },
  )
  expect(cut).toBeGreaterThan(kills / 4)
})

test('bringing the database up to date, cut short at any moment, loses nothing and leaves no half of a copy', async () => {
  // A journal as an early version left it, with enough in it for the copy to take a while.
  const old = dataFolder(before).database
  rmSync(old)
  migrate(
    old,
    'prisma/migrations',
    path.join(folder, 'none'),
    'then',
    '0004_receipts',
  )
  const filling = new Database(old)
  filling.exec(`
    INSERT INTO "Job" ("id", "title", "createdAt", "revision") VALUES ('job', 'Oak sideboard', 0, 0);
    WITH RECURSIVE "n" ("i") AS (SELECT 1 UNION ALL SELECT "i" + 1 FROM "n" WHERE "i" < 20000)
    INSERT INTO "Step" ("id", "jobId", "kind", "note", "createdAt")
    SELECT 'step-' || "i", 'job', 'prime', hex(randomblob(100)), "i" FROM "n"`)
  filling.close()
  const cut = await killEach({ does: 'open the journal' }, async (root) => {
    const db = await database()
    expect(await db.step.count()).toBe(20_000)
    expect(await findings()).toEqual([])
    const { copies } = dataFolder(root)
    for (const name of existsSync(copies) ? readdirSync(copies) : []) {
      expect(name).toMatch(/\.db$/)
      const copy = new Database(path.join(copies, name), { readonly: true })
      expect(copy.prepare('PRAGMA integrity_check').raw().all()).toEqual([
        ['ok'],
      ])
      expect(copy.prepare('SELECT count(*) FROM "Step"').raw().all()).toEqual([
        [20_000],
      ])
      copy.close()
    }
  })
  expect(cut).toBeGreaterThan(kills / 4)
})

test('a backup that is cut short at any moment leaves nothing that passes for one, and the next is whole', async () => {
  const job = await makeJob()
  await manyPhotos(job.id, 12)
  const target = (round: number) => path.join(folder, `drive-${String(round)}`)
  let round = -1
  const zips = (into: string) =>
    readdirSync(into).filter((name) => name.endsWith('.zip'))
  mkdirSync(target(-1))
  const cut = await killEach(
    {
      does: 'back up',
      // A folder beside the journal, in the copy of it that is worked in.
      get into() {
        return target(round)
      },
      now: backupMoment,
    },
    async (root) => {
      const into = target(round)
      for (const name of zips(into)) {
        await readWhole(path.join(into, name))
      }
      expect(await findings()).toEqual([])
      const next = await writeBackup(
        dataFolder(root),
        into,
        addMinutes(backupMoment, 1440),
      )
      await readWhole(next.file)
      expect(next.missing).toEqual([])
      expect(readdirSync(dataFolder(root).arriving)).toEqual([])
      round += 1
      mkdirSync(target(round), { recursive: true })
    },
  )
  expect(cut).toBeGreaterThan(kills / 4)
})

async function readWhole(file: string): Promise<void> {
  const archive = await openArchive(file)
  const manifest = await readManifest(archive)
  for (const one of manifest.files) {
    const bytes = archive.read(one.name, one.sha256)
    while ((await bytes.next()).done !== true);
  }
  archive.close()
}

test('a restore that is cut short at any moment leaves the journal as it was or has all of it', async () => {
  await fillJournal()
  const job = await makeJob('Blanket box')
  await manyPhotos(job.id, 12)
  await closeDatabase()
  const { file } = await writeBackup(dataFolder(before), folder, backupMoment)
  const whole = dump(before)
  // What the backup comes into: a journal of its own, with a job that the backup does not know.
  rmSync(before, { recursive: true })
  const fresh = openWorkshop()
  copyFileSync(dataFolder(fresh).database, path.join(folder, 'journal.db'))
  rmSync(fresh, { recursive: true })
  mkdirSync(before)
  copyFileSync(path.join(folder, 'journal.db'), dataFolder(before).database)
  process.env['COATBOOK_DATA'] = before
  const empty = dump(before)
  const scratches = () =>
    readdirSync(folder).filter((name) => name.startsWith('coatbook-restore-'))
  const cut = await killEach(
    { does: 'restore', file, now: backupMoment },
    async (root) => {
      const found = JSON.stringify(dump(root))
      expect([JSON.stringify(empty), JSON.stringify(whole)]).toContain(found)
      const isWhole = found === JSON.stringify(whole)
      expect(await findings()).toEqual([])
      const { originals, arriving } = dataFolder(root)
      const files = existsSync(originals) ? hashesIn(originals) : {}
      expect(Object.keys(files)).toHaveLength(isWhole ? 15 : 0)
      expect(readdirSync(arriving)).toEqual([])
      await closeDatabase()
      // Done again over what has all of it, it would only raise the revisions.
      if (!isWhole) {
        await killing.finish(root, {
          does: 'restore',
          file,
          now: backupMoment,
        })
      }
      expect(dump(root)).toEqual(whole)
      expect(await findings()).toEqual([])
      if (!isWhole) expect(scratches()).toEqual([])
    },
  )
  expect(cut).toBeGreaterThan(kills / 4)
})
