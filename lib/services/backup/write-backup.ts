import 'server-only'
import { randomUUID } from 'node:crypto'
import {
  open,
  readdir,
  rename,
  rm,
  rmdir,
  stat,
  statfs,
} from 'node:fs/promises'
import path from 'node:path'
import {
  type KeepRules,
  backupFileName,
  momentInName,
  surplusBackups,
} from '#core/backup/backup-files'
import type { Instant } from '#core/units'
import { ChangedFile, archiveStream } from '#services/backup/archive-stream'
import {
  type BackupPlan,
  type PlanOptions,
  planBackup,
} from '#services/backup/plan-backup'
import { now } from '#services/clock'
import { flushFolder } from '#services/files/flush-folder'
import type { DataFolder } from '#services/settings/data-folder'

/** A backup that lies in a folder. */
export type WrittenBackup = {
  readonly file: string
  readonly byteLength: number
  /** Originals that could not be put in. */
  readonly missing: BackupPlan['missing']
}

const unfinishedEnding = '.part'
/** What nobody has written to for so long was left behind by a program that was ended. */
const abandonedMilliseconds = 3_600_000

/**
 * Writes a backup of a data folder into a folder that is there already: under a name for what is unfinished, flushed, and
 * only then under its own, so that whatever carries a backup's name is whole. It works beside a running Coatbook.
 *
 * An original that turns out to have changed while it is read begins the backup anew, without it.
 *
 * @throws Error in words for the owner when there is no room
 */
export async function writeBackup(
  data: DataFolder,
  folder: string,
  at: Instant,
  keepChecksums?: PlanOptions['keepChecksums'],
): Promise<WrittenBackup> {
  await removeAbandoned(folder)
  const workFolder = path.join(
    folder,
    `coatbook-${randomUUID()}${unfinishedEnding}`,
  )
  const options = {
    workFolder,
    madeAt: at,
    ...(keepChecksums === undefined ? {} : { keepChecksums }),
  }
  try {
    try {
      return await writePlanned(await planBackup(data, options), folder)
    } catch (error) {
      if (!(error instanceof ChangedFile)) throw error
      const plan = await planBackup(data, { ...options, verify: true })
      return await writePlanned(plan, folder)
    }
  } finally {
    await rmdir(workFolder).catch(() => undefined)
  }
}

async function writePlanned(
  plan: BackupPlan,
  folder: string,
): Promise<WrittenBackup> {
  const { byteLength } = plan.zip
  const file = path.join(folder, backupFileName(plan.madeAt))
  const unfinished = `${file}.${randomUUID()}${unfinishedEnding}`
  try {
    const { bavail, bsize } = await statfs(folder)
    if (bavail * bsize < byteLength) {
      throw new Error(
        `There is no room for the backup in ${folder}: it takes ${inMegabytes(byteLength)} MB, and ${inMegabytes(bavail * bsize)} MB are free.`,
      )
    }
    const handle = await open(unfinished, 'wx', 0o600)
    try {
      for await (const chunk of archiveStream(plan)) {
        if (chunk instanceof Uint8Array) await handle.writeFile(chunk)
      }
      await handle.sync()
    } finally {
      await handle.close()
    }
    await rename(unfinished, file)
    await flushFolder(folder)
    return { file, byteLength, missing: plan.missing }
  } catch (error) {
    await rm(unfinished, { force: true })
    throw error
  } finally {
    await plan.release()
  }
}

const inMegabytes = (bytes: number) => Math.ceil(bytes / 1_000_000)

/** Removes the backups of a folder that the rules no longer keep; of other files it touches none. */
export async function removeSurplus(
  folder: string,
  rules: KeepRules,
  zone: string,
  at: Instant,
): Promise<readonly string[]> {
  const byMoment = new Map(
    (await readdir(folder)).flatMap((name) => {
      const moment = momentInName(name)
      return moment === undefined ? [] : [[moment, name] as const]
    }),
  )
  const surplus = surplusBackups([...byMoment.keys()], rules, zone, at)
  const names = surplus.flatMap((moment) => byMoment.get(moment) ?? [])
  for (const name of names) await rm(path.join(folder, name), { force: true })
  return names
}

async function removeAbandoned(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    if (!/^coatbook-.*\.part$/.test(name)) continue
    const left = path.join(folder, name)
    const { mtimeMs } = await stat(left)
    if (Math.abs(now() - mtimeMs) < abandonedMilliseconds) continue
    await rm(left, { recursive: true, force: true })
  }
}
