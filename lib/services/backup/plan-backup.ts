import 'server-only'
import { createHash, randomUUID } from 'node:crypto'
import { mkdir, readFile, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { crc32 } from 'node:zlib'
import { archiveNames, originalName } from '#core/backup/archive-names'
import { type ZipPlan, planZip } from '#core/backup/zip-plan'
import type { Instant } from '#core/units'
import {
  type RecordedOriginal,
  type WrittenFile,
  openWriter,
  writeJournalFile,
} from '#services/backup/journal-file'
import { readMeText } from '#services/backup/read-me'
import type { Manifest } from '#services/backup/schema'
import { readMigrations } from '#services/database/migrate'
import { programVersion } from '#services/openapi/program'
import { readChecksum } from '#services/photo-store/read-checksum'
import { diskPhotoStore } from '#services/photo-store/disk-photo-store'
import type { DataFolder } from '#services/settings/data-folder'

/** A backup before a byte of it is sent: where every byte comes from, and what it will be. */
export type BackupPlan = {
  readonly madeAt: Instant
  /** A name for exactly these bytes. */
  readonly tag: string
  readonly zip: ZipPlan
  /** The files behind the plan's files, in the same order. */
  readonly sources: readonly WrittenFile[]
  readonly missing: Manifest['missing']
  /** Removes what was written down for it. */
  readonly release: () => Promise<void>
}

export type PlanOptions = {
  /** For the snapshot of the journal; made when absent. */
  readonly workFolder: string
  readonly madeAt: Instant
  /** Whether every original is read and held against its hash first. */
  readonly verify?: boolean
  /** Told the checksums of originals that had none on record. */
  readonly keepChecksums?: (found: ReadonlyMap<string, number>) => Promise<void>
}

const originalsAtOnce = 16

/**
 * Plans a backup of a data folder as it is now, which may be in use by another process: the journal is written down from
 * one moment, and every original found. What is missing or has other bytes than were kept is left out and named.
 *
 * Its memory grows by some 200 bytes for each photo, and not with their size.
 *
 * @throws Error when the journal is at another version than this program
 */
export async function planBackup(
  folder: DataFolder,
  options: PlanOptions,
): Promise<BackupPlan> {
  const { workFolder, madeAt } = options
  await mkdir(workFolder, { recursive: true })
  const scratch = (name: string) =>
    path.join(workFolder, `${randomUUID()}-${name}`)
  const journalFile = scratch(archiveNames.journal)
  const manifestFile = scratch(archiveNames.manifest)
  const readMeFile = scratch(archiveNames.readMe)
  const release = async () => {
    for (const file of [journalFile, manifestFile, readMeFile]) {
      await rm(file, { force: true })
    }
  }
  try {
    const journal = await writeJournalFile(folder.database, journalFile)
    refuseOtherVersion(journal.migrations)
    const { found, missing } = await findOriginals(folder, journal.originals, {
      verify: options.verify ?? false,
      keepChecksums: options.keepChecksums,
    })
    const named = [
      {
        name: archiveNames.readMe,
        file: await writeText(readMeFile, readMeText),
      },
      { name: archiveNames.schema, file: await journalSchema() },
      { name: archiveNames.journal, file: journal.written },
      ...found,
    ]
    const written = await writeManifest(manifestFile, {
      madeAt,
      named,
      missing,
    })
    const all = [{ name: archiveNames.manifest, file: written }, ...named]
    return {
      madeAt,
      tag: `${String(madeAt)}-${written.sha256.slice(0, 32)}`,
      zip: planZip(
        all.map(({ name, file }) => ({
          name,
          byteLength: file.byteLength,
          crc32: file.crc32,
        })),
        madeAt,
      ),
      sources: all.map(({ file }) => file),
      missing,
      release,
    }
  } catch (error) {
    await release()
    throw error
  }
}

function migrationsFolder(): string {
  return path.join(
    /* turbopackIgnore: true */ process.cwd(),
    'prisma',
    'migrations',
  )
}

function refuseOtherVersion(migrations: readonly string[]): void {
  const ours = readMigrations(migrationsFolder()).map((one) => one.name)
  if (ours.join() === migrations.join()) return
  throw new Error(
    'This journal was last opened by another version of Coatbook. Start this one once, or back up with that one.',
  )
}

type Named = { readonly name: string; readonly file: WrittenFile }

async function journalSchema(): Promise<WrittenFile> {
  const file = path.join(
    /* turbopackIgnore: true */ process.cwd(),
    'lib',
    'services',
    'backup',
    archiveNames.schema,
  )
  return describe(file, await readFile(file))
}

async function writeText(file: string, text: string): Promise<WrittenFile> {
  const out = await openWriter(file)
  try {
    await out.write(text)
    return await out.end()
  } finally {
    await out.close()
  }
}

function describe(file: string, bytes: Buffer): WrittenFile {
  return {
    path: file,
    byteLength: bytes.byteLength,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    crc32: crc32(bytes),
  }
}

async function writeManifest(
  file: string,
  {
    madeAt,
    named,
    missing,
  }: {
    readonly madeAt: Instant
    readonly named: readonly Named[]
    readonly missing: Manifest['missing']
  },
): Promise<WrittenFile> {
  const head = {
    format: 'coatbook-backup',
    version: 1,
    madeAt: new Date(madeAt).toISOString(),
    program: programVersion,
  } satisfies Partial<Manifest>
  const out = await openWriter(file)
  try {
    await out.write(`${JSON.stringify(head, null, 1).slice(0, -2)},\n`)
    await out.write(` "missing": ${JSON.stringify(missing)},\n "files": [`)
    for (const [index, one] of named.entries()) {
      const { byteLength, sha256 } = one.file
      const line = JSON.stringify({ name: one.name, byteLength, sha256 })
      await out.write(`${index === 0 ? '' : ','}\n  ${line}`)
    }
    await out.write('\n ]\n}\n')
    return await out.end()
  } finally {
    await out.close()
  }
}

/** Where each original lies, with its checksum; and those that are not there as they were kept. */
async function findOriginals(
  folder: DataFolder,
  originals: readonly RecordedOriginal[],
  {
    verify,
    keepChecksums,
  }: Required<Pick<PlanOptions, 'verify'>> & {
    readonly keepChecksums: PlanOptions['keepChecksums']
  },
): Promise<{
  readonly found: readonly Named[]
  readonly missing: Manifest['missing']
}> {
  const store = diskPhotoStore(folder)
  const found: Named[] = []
  const missing: Manifest['missing'] = []
  for (let at = 0; at < originals.length; at += originalsAtOnce) {
    const some = originals.slice(at, at + originalsAtOnce)
    const looked = await Promise.all(
      some.map((one) => lookAt(store.path(one.sha256), one, verify)),
    )
    const checksums = new Map<string, number>()
    for (const [index, one] of some.entries()) {
      const seen = looked[index]
      if (typeof seen !== 'object') {
        missing.push({ sha256: one.sha256, reason: seen ?? 'missing' })
        continue
      }
      found.push({
        name: originalName(one.sha256, one.mediaType),
        file: { ...one, path: seen.path, crc32: seen.crc32 },
      })
      if (one.crc32 === null) checksums.set(one.sha256, seen.crc32)
    }
    if (checksums.size > 0) await keepChecksums?.(checksums)
  }
  return { found, missing }
}

async function lookAt(
  file: string,
  { sha256, byteLength, crc32: recorded }: RecordedOriginal,
  verify: boolean,
): Promise<
  { readonly path: string; readonly crc32: number } | 'missing' | 'damaged'
> {
  let size: number
  try {
    size = (await stat(file)).size
  } catch (error) {
    if (isMissing(error)) return 'missing'
    throw error
  }
  if (size !== byteLength) return 'damaged'
  if (recorded !== null && !verify) return { path: file, crc32: recorded }
  const checksum = await readChecksum(file, sha256)
  return checksum === undefined ? 'damaged' : { path: file, crc32: checksum }
}

function isMissing(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ENOENT'
}
