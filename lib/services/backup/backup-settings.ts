import 'server-only'
import { access, constants, stat } from 'node:fs/promises'
import path from 'node:path'
import type { KeepRules } from '#core/backup/backup-files'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import type { NewBackupSettings } from '#services/backup/schema'
import { now } from '#services/clock'
import { toDate, toInstant } from '#services/database/instants'
import { database, openDataFolder } from '#services/database/open-database'

/** The nightly backup, and how the last ones went. */
export type BackupSettings = {
  /** Absolute; absent: there is none. */
  readonly folder?: string
  readonly keep: KeepRules
  readonly triedAt?: Instant
  /** Why the last try failed. */
  readonly problem?: string
  readonly done?: {
    readonly at: Instant
    readonly file: string
    readonly byteLength: number
    /** How many originals it could not hold. */
    readonly missing: number
  }
  /** When a browser last fetched a backup to its end. */
  readonly downloadedAt?: Instant
}

const row = { id: 'backups' } as const
/** A week of days, a month of weeks, a year of months: common practice, no source. */
const usual: KeepRules = { days: 7, weeks: 4, months: 12 }
const usualColumns = {
  keepDays: usual.days,
  keepWeeks: usual.weeks,
  keepMonths: usual.months,
}

/** How this machine backs up by itself. */
export async function readBackupSettings(): Promise<BackupSettings> {
  const db = await database()
  const found = await db.backupSettings.findUnique({
    where: row,
    select: {
      folder: true,
      keepDays: true,
      keepWeeks: true,
      keepMonths: true,
      triedAt: true,
      problem: true,
      doneAt: true,
      doneFile: true,
      doneBytes: true,
      doneMissing: true,
      downloadedAt: true,
    },
  })
  if (found === null) return { keep: usual }
  const { folder, triedAt, problem, doneAt, downloadedAt } = found
  return {
    ...(folder === null ? {} : { folder }),
    keep: {
      days: found.keepDays,
      weeks: found.keepWeeks,
      months: found.keepMonths,
    },
    ...(triedAt === null ? {} : { triedAt: toInstant(triedAt) }),
    ...(problem === null ? {} : { problem }),
    ...(downloadedAt === null ? {} : { downloadedAt: toInstant(downloadedAt) }),
    ...(doneAt === null
      ? {}
      : {
          done: {
            at: toInstant(doneAt),
            file: found.doneFile ?? '',
            byteLength: Number(found.doneBytes ?? 0),
            missing: found.doneMissing ?? 0,
          },
        }),
  }
}

/**
 * Keeps where nightly backups go and for how long. With another folder, what was said of the one before is forgotten, so
 * that the next one is made soon.
 *
 * @returns refused when the folder is not there, cannot be written, or lies in the data folder itself
 */
export async function changeBackupSettings(
  settings: NewBackupSettings,
): Promise<Result<undefined>> {
  const { folder, ...keep } = settings
  const flaw = folder === '' ? undefined : await flawOf(folder)
  if (flaw !== undefined) {
    return refused({ kind: 'invalid', detail: flaw, field: 'folder' })
  }
  const before = await readBackupSettings()
  const values = { ...keep, folder: folder === '' ? null : folder }
  const other = (before.folder ?? '') !== folder
  await write({
    ...values,
    ...(other
      ? {
          triedAt: null,
          problem: null,
          doneAt: null,
          doneFile: null,
          doneBytes: null,
          doneMissing: null,
        }
      : {}),
  })
  return ok(undefined)
}

/** What is in the way of backups going to a folder, as a sentence; undefined when nothing is. */
export async function flawOf(folder: string): Promise<string | undefined> {
  if (!path.isAbsolute(folder)) {
    return 'Give the whole path of the folder, from the top of the disk.'
  }
  const { root } = await openDataFolder()
  const inside = path.relative(root, folder)
  if (inside === '' || !(inside.startsWith('..') || path.isAbsolute(inside))) {
    return 'This folder lies in the data folder, and would be lost together with it. Choose one on another disk.'
  }
  try {
    if (!(await stat(folder)).isDirectory()) return 'This is no folder.'
    await access(folder, constants.W_OK)
    return undefined
  } catch (error) {
    return isMissing(error)
      ? 'There is no such folder. Plug the drive in, or make the folder first.'
      : 'Coatbook may not write in this folder.'
  }
}

/** Writes down that a nightly backup was made. */
export async function recordBackup(done: {
  readonly at: Instant
  readonly file: string
  readonly byteLength: number
  readonly missing: number
}): Promise<void> {
  await write({
    triedAt: toDate(done.at),
    problem: null,
    doneAt: toDate(done.at),
    doneFile: done.file,
    doneBytes: BigInt(done.byteLength),
    doneMissing: done.missing,
  })
}

/** Writes down why a nightly backup could not be made. */
export async function recordFailure(
  at: Instant,
  problem: string,
): Promise<void> {
  await write({ triedAt: toDate(at), problem })
}

/** Writes down that a backup was fetched to its end; where that cannot be written, the backup is no worse. */
export async function recordDownload(): Promise<void> {
  try {
    await write({ downloadedAt: toDate(now()) })
  } catch (error) {
    console.error('That a backup was fetched could not be recorded.', error)
  }
}

type Values = {
  readonly folder?: string | null
  readonly keepDays?: number
  readonly keepWeeks?: number
  readonly keepMonths?: number
  readonly triedAt?: Date | null
  readonly problem?: string | null
  readonly doneAt?: Date | null
  readonly doneFile?: string | null
  readonly doneBytes?: bigint | null
  readonly doneMissing?: number | null
  readonly downloadedAt?: Date
}

async function write(values: Values): Promise<void> {
  const db = await database()
  await db.$transaction((transaction) =>
    transaction.backupSettings.upsert({
      where: row,
      create: { ...row, ...usualColumns, ...values },
      update: values,
      select: { id: true },
    }),
  )
}

function isMissing(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ENOENT'
}
