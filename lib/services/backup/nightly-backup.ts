import 'server-only'
import { isBackupDue } from '#core/backup/backup-due'
import type { Instant } from '#core/units'
import {
  flawOf,
  readBackupSettings,
  recordBackup,
  recordFailure,
} from '#services/backup/backup-settings'
import { keepChecksums } from '#services/backup/keep-checksums'
import { removeSurplus, writeBackup } from '#services/backup/write-backup'
import { now } from '#services/clock'
import { openDataFolder } from '#services/database/open-database'
import { readWorkshop } from '#services/workshop/workshop'

const betweenLooks = 10 * 60_000

// Kept on the global object: a development server loads modules anew.
const kept = globalThis as typeof globalThis & {
  coatbookNightly?: NodeJS.Timeout
  coatbookNightlyUnderWay?: boolean
}

/** Looks every ten minutes, while the program runs, whether the nightly backup is due, and makes it. */
export function startNightlyBackups(): void {
  clearInterval(kept.coatbookNightly)
  kept.coatbookNightly = setInterval(() => {
    makeDueBackup(now()).catch((error: unknown) => {
      console.error('The nightly backup could not be looked after.', error)
    })
  }, betweenLooks)
  kept.coatbookNightly.unref()
}

/**
 * Makes the nightly backup when it is due, removes those that the rules no longer keep, and writes down how it went.
 *
 * @returns what it did
 */
export async function makeDueBackup(
  at: Instant,
): Promise<'none' | 'made' | 'failed'> {
  const { folder, keep, triedAt, done } = await readBackupSettings()
  const { zone } = await readWorkshop()
  const last = {
    ...(triedAt === undefined ? {} : { triedAt }),
    ...(done === undefined ? {} : { doneAt: done.at }),
  }
  if (folder === undefined || kept.coatbookNightlyUnderWay === true) {
    return 'none'
  }
  if (!isBackupDue(at, zone, last)) return 'none'
  kept.coatbookNightlyUnderWay = true
  try {
    const flaw = await flawOf(folder)
    if (flaw !== undefined) {
      await recordFailure(at, flaw)
      return 'failed'
    }
    const data = await openDataFolder()
    const written = await writeBackup(data, folder, at, keepChecksums)
    await recordBackup({
      at,
      file: written.file,
      byteLength: written.byteLength,
      missing: written.missing.length,
    })
    await removeSurplus(folder, keep, zone, at)
    return 'made'
  } catch (error) {
    await recordFailure(at, problemOf(error))
    return 'failed'
  } finally {
    kept.coatbookNightlyUnderWay = false
  }
}

function problemOf(error: unknown): string {
  const code =
    error instanceof Error && 'code' in error ? error.code : undefined
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return 'The disk of the folder is full.'
    case 'EROFS':
    case 'EACCES':
    case 'EPERM':
      return 'Coatbook may not write in the folder.'
    case 'EIO':
      return 'The disk of the folder failed while it was being written. It may be about to break: use another one.'
    case 'ENOENT':
      return 'The folder went away while it was being written. Was the drive pulled out?'
    default:
      return error instanceof Error ? error.message : String(error)
  }
}
