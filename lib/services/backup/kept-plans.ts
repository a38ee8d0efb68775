import 'server-only'
import { randomUUID } from 'node:crypto'
import path from 'node:path'
import { Readable } from 'node:stream'
import { backupFileName } from '#core/backup/backup-files'
import { type Instant, instant } from '#core/units'
import { ChangedFile, archiveStream } from '#services/backup/archive-stream'
import { recordDownload } from '#services/backup/backup-settings'
import { keepChecksums } from '#services/backup/keep-checksums'
import { type BackupPlan, planBackup } from '#services/backup/plan-backup'
import { now } from '#services/clock'
import { openDataFolder } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import type { ByteRange } from '#services/photo-store/photo-store'

/** A backup to send. */
export type BackupFile = {
  readonly fileName: string
  readonly byteLength: number
  readonly mediaType: string
  readonly tag: string
  readonly open: (range?: ByteRange) => Readable
}

type Kept = {
  readonly plan: BackupPlan
  readonly root: string
  usedAt: Instant
  readers: number
  /** Whether its last byte was sent. */
  isFetched: boolean
}

/** A fetch that broke off can be gone on with for so long without the journal being written down again. */
const keptMilliseconds = 3_600_000
/** One that was fetched is kept a little longer, for whoever fetches its parts in an order of their own. */
const fetchedMilliseconds = 5 * 60_000
const betweenSweeps = 60_000
const mostKept = 4

// Kept on the global object: a development server loads modules anew.
const kept = globalThis as typeof globalThis & {
  coatbookBackupPlans?: Kept[]
  coatbookBackupPlanning?: Promise<unknown>
  coatbookBackupSweep?: NodeJS.Timeout
  /** Whether an original was found changed while it was sent: the next plan reads all of them first. */
  coatbookBackupDoubt?: boolean
}

/**
 * The backup to answer a request with. A new fetch gets the journal as it is now. One that goes on gets the very backup
 * that it began with: by its tag, which says when that was, or, where it names none, the one that was asked for last.
 *
 * @param wanted the tag that a part is wanted of, without its quotes (If-Range), and whether only a part is wanted
 */
export async function openBackup(
  now: Instant,
  wanted: { readonly tag?: string | undefined; readonly part: boolean },
): Promise<BackupFile> {
  const before = kept.coatbookBackupPlanning ?? Promise.resolve()
  // One at a time: each writes the whole journal down.
  const found = before
    .catch(() => undefined)
    .then(() => findOrPlan(now, wanted))
  kept.coatbookBackupPlanning = found
  return sendable(await found)
}

async function findOrPlan(
  now: Instant,
  { tag, part }: { readonly tag?: string | undefined; readonly part: boolean },
): Promise<Kept> {
  const { root } = await openDataFolder()
  await dropOld(now, root)
  const there = plans()
    .filter((one) => one.root === root)
    .toSorted((one, other) => other.usedAt - one.usedAt)
  const same = part
    ? there.find((one) => tag === undefined || one.plan.tag === tag)
    : undefined
  if (same !== undefined) {
    same.usedAt = now
    return same
  }
  // The program may have been started anew since; where the journal has not changed, the backup of then is made again.
  const then = part ? momentOf(tag, now) : undefined
  if (then !== undefined) {
    const again = await plan(then, root, now)
    if (again.plan.tag === tag) return again
  }
  return plan(now, root, now)
}

function plans(): Kept[] {
  kept.coatbookBackupPlans ??= []
  return kept.coatbookBackupPlans
}

function momentOf(tag: string | undefined, now: Instant): Instant | undefined {
  const [, milliseconds] = /^(\d{1,15})-[0-9a-f]{32}$/.exec(tag ?? '') ?? []
  if (milliseconds === undefined) return undefined
  const at = Number(milliseconds)
  return at <= now ? instant(at) : undefined
}

async function plan(
  madeAt: Instant,
  root: string,
  now: Instant,
): Promise<Kept> {
  const folder = await openDataFolder()
  // Its first use empties the folder that the journal is written down in.
  await openPhotoStore()
  const made: Kept = {
    root,
    usedAt: now,
    readers: 0,
    isFetched: false,
    plan: await planBackup(folder, {
      workFolder: path.join(folder.arriving, `backup-${randomUUID()}`),
      madeAt,
      verify: kept.coatbookBackupDoubt ?? false,
      keepChecksums,
    }),
  }
  kept.coatbookBackupDoubt = false
  plans().push(made)
  sweepWhileAnyIsKept()
  return made
}

/** Nobody may ever ask for a backup again, and each takes as much room as the journal. */
function sweepWhileAnyIsKept(): void {
  kept.coatbookBackupSweep ??= setInterval(() => {
    dropIdleBackups(now()).catch((error: unknown) => {
      console.error('What was written down for a backup stays.', error)
    })
  }, betweenSweeps)
  kept.coatbookBackupSweep.unref()
}

/** Removes what was written down for backups that were fetched, or given up; returns how many are left. */
export async function dropIdleBackups(at: Instant): Promise<number> {
  await kept.coatbookBackupPlanning?.catch(() => undefined)
  const { root } = await openDataFolder()
  await dropOld(at, root, mostKept)
  if (plans().length === 0) {
    clearInterval(kept.coatbookBackupSweep)
    delete kept.coatbookBackupSweep
  }
  return plans().length
}

async function dropOld(
  now: Instant,
  root: string,
  most = mostKept - 1,
): Promise<void> {
  const idle = plans()
    .filter((one) => one.readers === 0)
    .toSorted((one, other) => other.usedAt - one.usedAt)
  const old = idle.filter(
    (one, index) =>
      index >= most ||
      one.root !== root ||
      Math.abs(now - one.usedAt) >
        (one.isFetched ? fetchedMilliseconds : keptMilliseconds),
  )
  kept.coatbookBackupPlans = plans().filter((one) => !old.includes(one))
  for (const one of old) await one.plan.release()
}

function sendable(chosen: Kept): BackupFile {
  const { plan } = chosen
  return {
    fileName: backupFileName(plan.madeAt),
    byteLength: plan.zip.byteLength,
    mediaType: 'application/zip',
    tag: plan.tag,
    open: (range) => {
      const stream = archiveStream(plan, range)
      chosen.readers += 1
      const isLast =
        range === undefined || range.last === plan.zip.byteLength - 1
      stream.once('error', (error) => {
        if (!(error instanceof ChangedFile)) return
        kept.coatbookBackupDoubt = true
        kept.coatbookBackupPlans = plans().filter((one) => one !== chosen)
      })
      stream.once('end', () => {
        if (isLast) {
          chosen.isFetched = true
          void recordDownload()
        }
      })
      stream.once('close', () => {
        chosen.readers -= 1
        chosen.usedAt = now()
      })
      return stream
    },
  }
}
