import 'server-only'
import { createHash } from 'node:crypto'
import { existsSync } from 'node:fs'
import { mkdir, mkdtemp, readdir, rm, statfs } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Database from 'libsql'
import { archiveNames, originalIn } from '#core/backup/archive-names'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { countBinAnew } from '#services/bin/bin-settings'
import { BackupFlaw } from '#services/backup/backup-flaw'
import {
  type ConflictChoice,
  type Merge,
  mergeJournal,
} from '#services/backup/merge-journal'
import { type Archive, openArchive } from '#services/backup/open-archive'
import { readManifest } from '#services/backup/read-manifest'
import type { Manifest } from '#services/backup/schema'
import { stageJournal } from '#services/backup/stage-journal'
import { rowsOf } from '#services/backup/table-shape'
import { copyDatabase } from '#services/database/copy-database'
import { migrate } from '#services/database/migrate'
import { newId } from '#services/database/new-id'
import { closeDatabase, database } from '#services/database/open-database'
import { diskPhotoStore } from '#services/photo-store/disk-photo-store'
import {
  isOnRecord,
  openPhotoStore,
} from '#services/photo-store/open-photo-store'
import type { Arrival, PhotoStore } from '#services/photo-store/photo-store'
import type { DataFolder } from '#services/settings/data-folder'

/** What a restore did, or would do. */
export type Restoration = {
  /**
   * `restored`; `tried`, nothing changed because that was asked for; or `asks`, nothing changed because records differ and
   * nobody said which to keep.
   */
  readonly outcome: 'restored' | 'tried' | 'asks'
  /** When the backup was made, ISO 8601. */
  readonly madeAt: string
  readonly merge: Merge
  /** Originals that the journal does not have, or has damaged, and their bytes. */
  readonly originals: { readonly count: number; readonly byteLength: number }
  /** Originals that the backup itself could not hold. */
  readonly missing: number
  /** A copy of the journal from before. */
  readonly copy?: string
}

export type RestoreOptions = {
  /** Changes nothing, and may be done while the journal is in use. */
  readonly dryRun: boolean
  readonly onConflict?: ConflictChoice | undefined
}

const migrationsFolder = () => path.join(process.cwd(), 'prisma', 'migrations')

/**
 * Brings a backup into a data folder: an empty one, or one with a journal, which gains what it does not have.
 *
 * The whole backup is read and checked before anything is touched. Originals are then put where they belong under marks
 * that say that they are not on record yet, and all records are written in one transaction: whenever it is cut short, the
 * journal is as it was or has all of it, and the next start clears away what was left.
 *
 * @returns refused, with nothing changed, when the file is no sound backup
 * @throws Error when another process has the data folder open
 */
export async function restoreBackup(
  file: string,
  folder: DataFolder,
  options: RestoreOptions,
  now: Instant,
): Promise<Result<Restoration>> {
  const scratch = await makeScratch()
  let archive: Archive | undefined
  try {
    archive = await openArchive(file)
    const manifest = await readManifest(archive)
    const staged = await stageChecked(archive, manifest, scratch)
    const backup = { archive, manifest, staged, scratch }
    return ok(
      options.dryRun
        ? await tryOut(backup, folder, options)
        : await restoreChecked(backup, folder, options, now),
    )
  } catch (error) {
    if (!(error instanceof BackupFlaw)) throw error
    return refused({
      kind: 'invalid',
      detail: `This backup cannot be restored. ${error.message} Nothing was changed.`,
    })
  } finally {
    archive?.close()
    await rm(scratch, { recursive: true, force: true })
  }
}

/**
 * A folder of this restore's own for what it unpacks, named for its process; those of restores that were killed are
 * removed, for they hold a whole journal.
 */
async function makeScratch(): Promise<string> {
  for (const name of await readdir(tmpdir())) {
    const [, pid] = /^coatbook-restore-(\d+)-/.exec(name) ?? []
    if (pid === undefined || isRunning(Number(pid))) continue
    // Somebody else's is not ours to remove.
    await rm(path.join(tmpdir(), name), {
      recursive: true,
      force: true,
    }).catch(() => undefined)
  }
  return mkdtemp(path.join(tmpdir(), `coatbook-restore-${process.pid}-`))
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    // It runs, and belongs to somebody else.
    return error instanceof Error && 'code' in error && error.code === 'EPERM'
  }
}

type Backup = {
  readonly archive: Archive
  readonly manifest: Manifest
  /** The database made of its journal, at this program's version. */
  readonly staged: string
  readonly scratch: string
}

/** Reads every byte of the archive, and makes a database of its journal. */
async function stageChecked(
  archive: Archive,
  manifest: Manifest,
  scratch: string,
): Promise<string> {
  const journal = manifest.files.find(
    (one) => one.name === archiveNames.journal,
  )
  const staged = await stageJournal(
    () => archive.read(archiveNames.journal, journal?.sha256),
    scratch,
    migrationsFolder(),
  )
  for (const one of manifest.files) {
    if (one.name === archiveNames.journal) continue
    await readThrough(archive.read(one.name, one.sha256))
  }
  refuseIncomplete(staged, manifest)
  return staged
}

async function readThrough(bytes: AsyncGenerator<Uint8Array>): Promise<void> {
  while ((await bytes.next()).done !== true);
}

/** The originals that the journal names are those that are there, or that the manifest says are not. */
function refuseIncomplete(staged: string, manifest: Manifest): void {
  const sizes = new Map(
    manifest.files.flatMap(({ name, byteLength }) => {
      const sha256 = originalIn(name)
      return sha256 === undefined ? [] : [[sha256, byteLength] as const]
    }),
  )
  const missing = new Set(manifest.missing.map((one) => one.sha256))
  const database = new Database(staged)
  try {
    const rows = rowsOf(
      database,
      'SELECT "sha256", "byteLength" FROM "Original"',
    )
    for (const row of rows) {
      const sha256 = String(row['sha256'])
      if (missing.has(sha256)) continue
      if (sizes.get(sha256) !== row['byteLength']) {
        throw new BackupFlaw(
          `The original ${sha256.slice(0, 80)} is missing from it, or of another size.`,
        )
      }
    }
    const known = new Set(rows.map((row) => String(row['sha256'])))
    for (const sha256 of sizes.keys()) {
      if (!known.has(sha256)) {
        throw new BackupFlaw(
          `It holds the original ${sha256}, which its journal does not name.`,
        )
      }
    }
  } finally {
    database.close()
  }
}

/** The merge on a copy of the journal, aside. */
async function tryOut(
  { manifest, staged, scratch }: Backup,
  folder: DataFolder,
  options: RestoreOptions,
): Promise<Restoration> {
  const copy = path.join(scratch, 'copy.db')
  if (existsSync(folder.database)) copyJournal(folder.database, copy)
  migrate(copy, migrationsFolder(), scratch, 'tried')
  const merge = mergeFiles(copy, staged, { ...options, commit: false })
  const wanted = await wantedOriginals(diskPhotoStore(folder), manifest)
  return {
    outcome: 'tried',
    madeAt: manifest.madeAt,
    merge,
    originals: sizeOf(wanted),
    missing: manifest.missing.length,
  }
}

async function restoreChecked(
  { archive, manifest, staged }: Backup,
  folder: DataFolder,
  { onConflict }: RestoreOptions,
  now: Instant,
): Promise<Restoration> {
  const hadJournal = existsSync(folder.database)
  // Opens it for this process alone, and brings it up to this version.
  await database()
  try {
    const store = await openPhotoStore()
    await mkdir(folder.copies, { recursive: true })
    const stamp = new Date(now).toISOString().replaceAll(/[^0-9A-Za-z]/g, '-')
    const copy = path.join(
      folder.copies,
      `before-restore-${stamp}-${newId().slice(0, 8)}.db`,
    )
    copyJournal(folder.database, copy)
    const trial = await triedOn(copy, staged, onConflict)
    const differs = trial.tables.some((one) => one.differing > 0)
    const wanted = await wantedOriginals(store, manifest)
    const told = {
      madeAt: manifest.madeAt,
      originals: sizeOf(wanted),
      missing: manifest.missing.length,
    }
    if (differs && onConflict === undefined) {
      await rm(copy)
      return { ...told, outcome: 'asks', merge: trial }
    }
    await refuseWithoutRoom(folder, told.originals.byteLength)
    // Whatever comes into the bin has its time there from now on, however long ago it was removed.
    await countBinAnew()
    forgetBinCount(staged)
    const merge = await bringIn(archive, wanted, store, () =>
      mergeFiles(folder.database, staged, { onConflict, commit: true }),
    ).catch(async (error: unknown) => {
      await store.removeLeftovers(isOnRecord)
      throw error
    })
    if (!hadJournal) await rm(copy)
    return {
      ...told,
      outcome: 'restored',
      merge,
      ...(hadJournal ? { copy } : {}),
    }
  } finally {
    await closeDatabase()
  }
}

function forgetBinCount(staged: string): void {
  const database = new Database(staged)
  try {
    database.exec(
      'UPDATE "BinSettings" SET "countsFrom" = NULL, "lookedAt" = NULL',
    )
  } finally {
    database.close()
  }
}

/** The merge on the copy, which is taken away again where it cannot be. */
async function triedOn(
  copy: string,
  staged: string,
  onConflict: ConflictChoice | undefined,
): Promise<Merge> {
  try {
    return mergeFiles(copy, staged, { onConflict, commit: false })
  } catch (error) {
    await rm(copy)
    throw error
  }
}

type WantedOriginal = {
  readonly name: string
  readonly sha256: string
  readonly byteLength: number
}

function sizeOf(wanted: readonly WantedOriginal[]): Restoration['originals'] {
  return {
    count: wanted.length,
    byteLength: wanted.reduce((sum, one) => sum + one.byteLength, 0),
  }
}

/** The originals of a backup that the store does not have as they should be. */
async function wantedOriginals(
  store: PhotoStore,
  manifest: Manifest,
): Promise<readonly WantedOriginal[]> {
  const wanted: WantedOriginal[] = []
  for (const { name, sha256, byteLength } of manifest.files) {
    if (originalIn(name) === undefined) continue
    if (await isThere(store, sha256, byteLength)) continue
    wanted.push({ name, sha256, byteLength })
  }
  return wanted
}

async function isThere(
  store: PhotoStore,
  sha256: string,
  byteLength: number,
): Promise<boolean> {
  const found = await store.stat(sha256)
  if (found?.byteLength !== byteLength) return false
  const hash = createHash('sha256')
  for await (const chunk of store.open(sha256)) {
    if (chunk instanceof Uint8Array) hash.update(chunk)
  }
  return hash.digest('hex') === sha256
}

async function bringIn(
  archive: Archive,
  wanted: readonly WantedOriginal[],
  store: PhotoStore,
  record: () => Merge,
): Promise<Merge> {
  const arrivals: Arrival[] = []
  for (const { name, sha256, byteLength } of wanted) {
    const arrival = await store.arrive(archive.read(name, sha256), byteLength)
    if (arrival === 'too-large') {
      throw new BackupFlaw(`${name} is larger than its manifest says.`)
    }
    arrivals.push(arrival)
  }
  for (const arrival of arrivals) await store.keep(arrival)
  const merge = record()
  for (const arrival of arrivals) await store.settle(arrival)
  return merge
}

async function refuseWithoutRoom(
  folder: DataFolder,
  byteLength: number,
): Promise<void> {
  const { bavail, bsize } = await statfs(folder.root)
  if (bavail * bsize > byteLength) return
  throw new BackupFlaw(
    `There is no room for it: its photos take ${Math.ceil(byteLength / 1_000_000)} MB, and ${Math.floor((bavail * bsize) / 1_000_000)} MB are free where the data folder is.`,
  )
}

function mergeFiles(
  target: string,
  staged: string,
  options: Parameters<typeof mergeJournal>[2],
): Merge {
  const mine = new Database(target)
  const theirs = new Database(staged)
  try {
    mine.exec('PRAGMA busy_timeout = 5000')
    mine.exec('PRAGMA synchronous = FULL')
    return mergeJournal(mine, theirs, options)
  } finally {
    theirs.close()
    mine.close()
  }
}

function copyJournal(from: string, to: string): void {
  const source = new Database(from)
  try {
    copyDatabase(source, to)
  } finally {
    source.close()
  }
}
