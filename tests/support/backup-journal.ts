import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Database from 'libsql'
import { afterEach, beforeEach } from 'vitest'
import { backedUpTables } from '#core/backup/backed-up-tables'
import { instant } from '#core/units'
import { writeBackup } from '#services/backup/write-backup'
import { database } from '#services/database/open-database'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'
import { keepFirstSettings } from '#services/workshop/workshop'
import { makeJob, makeStep } from './make-job'
import { makePhoto } from './make-photo'
import { sendPhotos } from './send-photos'

/** The moment at which the tests back up. */
export const backupMoment = instant(Date.parse('2026-11-25T02:00:08Z'))

/** Gives each test of the file a folder for what it writes besides the data folder; gives its path when asked. */
export function useFolder(): () => string {
  let folder = ''
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'coatbook-backups-'))
  })
  afterEach(() => {
    rmSync(folder, { recursive: true, force: true })
  })
  return () => folder
}

/** A journal with something in it: a job with two steps and three photos, a product, air and money. */
export async function fillJournal(): Promise<{
  readonly jobId: string
  readonly stepId: string
  readonly hashes: readonly string[]
}> {
  await keepFirstSettings(instant(Date.parse('2026-10-22T07:00:00Z')))
  const job = await makeJob()
  const stepId = await makeStep(job.id, 'prime', job.surfaceIds)
  await makeStep(job.id, 'coat', job.surfaceIds.slice(0, 1))
  const { photos } = await sendPhotos(job.id, [
    ['a.jpg', await makePhoto({ width: 61, make: 'Lumen', model: 'One' })],
    ['b.jpg', await makePhoto({ width: 62 })],
    ['c.png', await makePhoto({ width: 63 }, 'png')],
  ])
  const db = await database()
  await db.product.create({
    data: {
      id: 'primer',
      name: 'waterborne primer, grey — “fast”',
      category: 'primer',
      chemistry: 'waterborne-acrylic',
      label: '{"recoatMinutes":60}',
      packAmount: 0.75,
      createdAt: new Date('2026-10-22T07:00:00.123Z'),
    },
  })
  await db.airReading.create({
    data: { at: new Date('2026-10-22T08:00:00Z'), celsius: 18, humidity: 55.5 },
  })
  await db.costEntry.create({
    data: {
      id: 'cost',
      jobId: job.id,
      kind: 'other',
      words: 'van\n"hire"',
      quantity: 31.2,
      eachMinor: 72.5,
      createdAt: new Date('2026-10-22T09:00:00Z'),
    },
  })
  await db.ownMark.create({
    data: {
      id: 'workshop',
      words: 'Alder Yard',
      picture: new Uint8Array([0, 255, 137, 80]),
      changedAt: new Date('2026-10-22T09:00:00Z'),
    },
  })
  await renditionsIdle()
  return { jobId: job.id, stepId, hashes: photos.map((one) => one.sha256) }
}

/** Backs the data folder up into a folder and gives the file. */
export async function backUp(
  root: string,
  folder: string,
  at = backupMoment,
): Promise<string> {
  return (await writeBackup(dataFolder(root), folder, at)).file
}

/** Every value of every table that backups hold, with its type in the database. */
export function dump(root: string): unknown {
  const file = new Database(dataFolder(root).database)
  try {
    return backedUpTables.map(({ name }) => {
      const columns = file
        .prepare(`PRAGMA table_info("${name}")`)
        .all()
        .map((row: unknown) =>
          typeof row === 'object' && row !== null
            ? String(Reflect.get(row, 'name'))
            : '',
        )
      const values = columns.map((column) => `quote("${column}")`).join()
      return [
        name,
        file.prepare(`SELECT ${values} FROM "${name}"`).raw().all().sort(),
      ]
    })
  } finally {
    file.close()
  }
}

/** The hash of each file under a folder, by its path in it. */
export function hashesIn(folder: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => path.join(entry.parentPath, entry.name))
      .sort()
      .map((file) => [
        path.relative(folder, file),
        createHash('sha256').update(readFileSync(file)).digest('hex'),
      ]),
  )
}
