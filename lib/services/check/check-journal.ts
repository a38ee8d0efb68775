import 'server-only'
import { createHash } from 'node:crypto'
import { readdir } from 'node:fs/promises'
import { database, openDataFolder } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import {
  mendRenditions,
  removeStrayRenditions,
} from '#services/renditions/mend-renditions'
import { removeStrayPicturesOfPairs } from '#services/pairs/kept-pair-pictures'
import { renditionsIdle } from '#services/renditions/renditions'

/** What a check of the whole journal found. */
export type JournalCheck = {
  readonly originals: number
  readonly photos: number
  /** Bytes of the originals that are as they were kept. */
  readonly soundBytes: number
  /** Renditions that were missing or damaged, and are made anew. */
  readonly renditionsMade: number
  /** Renditions of photos that are no longer there, and damaged pictures of pairs: all are removed. */
  readonly renditionsRemoved: number
  /** Sentences for the owner: what is wrong, and what to do about what cannot be put right here. */
  readonly findings: readonly string[]
}

/**
 * Checks everything in the data folder: the database itself, every original against its hash, every rendition, every
 * photo's record. What can be made anew is; nothing that cannot is touched.
 */
export async function checkJournal(): Promise<JournalCheck> {
  const findings: string[] = [...(await databaseFindings())]
  const originals = await readOriginals()
  const known = new Set(originals.map((one) => one.sha256))
  let soundBytes = 0
  let renditionsMade = 0
  for (const original of originals) {
    const flaw = await flawOf(original)
    if (flaw !== undefined) {
      findings.push(`${namesOf(original)}: ${flaw}`)
      continue
    }
    soundBytes += original.byteLength
    const turns = new Set([
      0,
      ...original.photos.map((one) => one.quarterTurns),
    ])
    for (const quarterTurns of turns) {
      try {
        renditionsMade += await mendRenditions(original.sha256, quarterTurns)
      } catch {
        findings.push(
          `${namesOf(original)}: the original is as it was kept, but cannot be shown. Download it and look at it in another program.`,
        )
      }
    }
  }
  const renditionsRemoved =
    (await removeStrayRenditions(known)) +
    (await removeStrayPicturesOfPairs(known))
  await renditionsIdle()
  const released = await readReleased()
  findings.push(
    ...(await strayFindings(new Set([...known, ...released]))),
    ...(await photoFindings()),
  )
  return {
    originals: originals.length,
    photos: originals.reduce((sum, one) => sum + one.photos.length, 0),
    soundBytes,
    renditionsMade,
    renditionsRemoved,
    findings,
  }
}

async function databaseFindings(): Promise<readonly string[]> {
  const db = await database()
  const integrity: unknown = await db.$queryRawUnsafe('PRAGMA integrity_check')
  const dangling: unknown = await db.$queryRawUnsafe('PRAGMA foreign_key_check')
  const sound = JSON.stringify(integrity) === '[{"integrity_check":"ok"}]'
  return [
    ...(sound
      ? []
      : [
          'The database is damaged. Bring the data folder back from a backup, or the newest copy in its folder "copies".',
        ]),
    ...(Array.isArray(dangling) && dangling.length > 0
      ? [
          `${dangling.length} records point at records that are not there. Bring the data folder back from a backup.`,
        ]
      : []),
  ]
}

async function readOriginals() {
  const db = await database()
  return db.original.findMany({
    orderBy: { sha256: 'asc' },
    select: {
      sha256: true,
      byteLength: true,
      photos: {
        select: {
          fileName: true,
          quarterTurns: true,
          job: { select: { title: true } },
        },
      },
    },
  })
}

/** Those whose photos are gone for good and whose files still have their time. */
async function readReleased(): Promise<readonly string[]> {
  const db = await database()
  const rows = await db.releasedOriginal.findMany({ select: { sha256: true } })
  return rows.map((row) => row.sha256)
}

type OriginalRow = Awaited<ReturnType<typeof readOriginals>>[number]

/** What is wrong with an original's bytes; undefined when they are those that were kept. */
async function flawOf(original: OriginalRow): Promise<string | undefined> {
  const { sha256, byteLength } = original
  const store = await openPhotoStore()
  const found = await store.stat(sha256)
  if (found === undefined) {
    return `the original ${sha256} is missing. Bring it back from a backup, or add the photo again from where it was taken.`
  }
  const hash = createHash('sha256')
  for await (const chunk of store.open(sha256)) {
    if (chunk instanceof Uint8Array) hash.update(chunk)
  }
  const same = found.byteLength === byteLength && hash.digest('hex') === sha256
  return same
    ? undefined
    : `the original ${sha256} has other bytes than were kept: the disk has damaged it. Bring it back from a backup, or add the photo again; that mends it.`
}

function namesOf({ sha256, photos }: OriginalRow): string {
  if (photos.length === 0) return `An original of no photo (${sha256})`
  return photos
    .map((photo) => `${photo.fileName} of "${photo.job.title}"`)
    .join(', ')
}

async function strayFindings(
  known: ReadonlySet<string>,
): Promise<readonly string[]> {
  const folder = (await openDataFolder()).originals
  const entries = await readdir(folder, {
    recursive: true,
    withFileTypes: true,
  }).catch(() => [])
  return entries
    .filter((entry) => entry.isFile() && !known.has(entry.name))
    .map(
      (entry) =>
        `The folder of originals holds ${entry.name}, which no record names. It is left alone: it may be a photo that a restored database does not know.`,
    )
}

async function photoFindings(): Promise<readonly string[]> {
  const db = await database()
  const photos = await db.photo.findMany({
    select: {
      fileName: true,
      takenEarliest: true,
      takenAt: true,
      takenLatest: true,
      warnings: true,
    },
  })
  return photos.flatMap((photo) => {
    const { takenEarliest, takenAt, takenLatest } = photo
    const ordered = takenEarliest <= takenAt && takenAt <= takenLatest
    return ordered && isList(photo.warnings)
      ? []
      : [
          `${photo.fileName}: what is recorded of it cannot be. Type its time anew.`,
        ]
  })
}

function isList(json: string): boolean {
  try {
    return Array.isArray(JSON.parse(json))
  } catch {
    // That it is no JSON is the finding.
    return false
  }
}
