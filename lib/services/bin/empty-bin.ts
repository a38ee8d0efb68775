import 'server-only'
import { dueUntil, judgeBinLook } from '#core/bin/bin-times'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { inBin } from '#services/bin/bin'
import { readBinSettings, recordBinLook } from '#services/bin/bin-settings'
import { toDate } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { removePicturesOfPairs } from '#services/pairs/kept-pair-pictures'
import { removePicturesOfWhatIsGone } from '#services/portfolio/gone-pictures'
import { removeRenditions } from '#services/renditions/mend-renditions'

/** How much went for good. */
export type Emptied = {
  readonly jobs: number
  readonly pieces: number
  readonly surfaces: number
  readonly steps: number
  readonly photos: number
}

const nothing: Emptied = {
  jobs: 0,
  pieces: 0,
  surfaces: 0,
  steps: 0,
  photos: 0,
}

/**
 * Looks into the bin and removes for good what has been in it for its time, and the files of originals that no photo has
 * shown for theirs. Once a day is enough; how often it is called makes no difference.
 */
export async function emptyDueBin(now: Instant): Promise<Emptied> {
  const { rules, ...last } = await readBinSettings()
  const { does, countsFrom } = judgeBinLook(now, last)
  if (does === 'wait') return nothing
  const due = does === 'empty' ? dueUntil(now, rules, countsFrom) : undefined
  const emptied =
    due === undefined ? nothing : await removeForGood({ lte: toDate(due) }, now)
  if (does === 'empty') await removeReleasedOriginals(now, rules.originalDays)
  // Last: a look that was cut short is done again.
  await recordBinLook(now, countsFrom)
  return emptied
}

/** Removes for good all that is in the bin, however long it has been there. The files of originals still have their time. */
export async function emptyWholeBin(now: Instant): Promise<Emptied> {
  const { rules } = await readBinSettings()
  const emptied = await removeForGood({}, now)
  if (rules.originalDays === 0) await removeReleasedOriginals(now, 0)
  return emptied
}

/** How many originals no photo shows any more, and their bytes: they are still on the disk. */
export async function readReleasedOriginals(): Promise<{
  readonly count: number
  readonly byteLength: number
}> {
  const db = await database()
  const found = await db.releasedOriginal.aggregate({
    _count: true,
    _sum: { byteLength: true },
  })
  return { count: found._count, byteLength: found._sum.byteLength ?? 0 }
}

/**
 * Removes the records first, all in one transaction, and with them takes the originals that no photo shows any more off
 * the record; then what was made from them. Whenever it is cut short, the journal is as it was or has none of it.
 */
async function removeForGood(
  removed: { readonly lte?: Date },
  now: Instant,
): Promise<Emptied> {
  const db = await database()
  const { emptied, released } = await db.$transaction(async (transaction) => {
    const before = await countAll(transaction)
    await removeRecords(transaction, {
      removedAt: { ...inBin.removedAt, ...removed },
    })
    const after = await countAll(transaction)
    return {
      emptied: {
        jobs: before.jobs - after.jobs,
        pieces: before.pieces - after.pieces,
        surfaces: before.surfaces - after.surfaces,
        steps: before.steps - after.steps,
        photos: before.photos - after.photos,
      },
      released: await releaseOriginals(transaction, now),
    }
  })
  for (const sha256 of released) await removeRenditions(sha256)
  if (released.length > 0) await removePicturesOfPairs(released)
  if (Object.values(emptied).some((count) => count > 0)) {
    await removePicturesOfWhatIsGone()
  }
  return emptied
}

type OldInBin = {
  readonly removedAt: { readonly not: null; readonly lte?: Date }
}

async function removeRecords(
  transaction: Transaction,
  old: OldInBin,
): Promise<void> {
  await transaction.job.deleteMany({ where: old })
  // Also those that a phone sent late for a surface that was in the bin already: without one they would be on nothing.
  await transaction.step.deleteMany({
    where: {
      OR: [
        old,
        {
          surfaces: {
            some: {},
            every: { surface: { OR: [old, { piece: old }] } },
          },
        },
      ],
    },
  })
  await transaction.photo.deleteMany({ where: old })
  await transaction.piece.deleteMany({ where: old })
  await transaction.surface.deleteMany({ where: old })
}

async function countAll(transaction: Transaction): Promise<Emptied> {
  return {
    jobs: await transaction.job.count(),
    pieces: await transaction.piece.count(),
    surfaces: await transaction.surface.count(),
    steps: await transaction.step.count(),
    photos: await transaction.photo.count(),
  }
}

async function releaseOriginals(
  transaction: Transaction,
  now: Instant,
): Promise<readonly string[]> {
  const unused = { photos: { none: {} } }
  const rows = await transaction.original.findMany({
    where: unused,
    select: { sha256: true, byteLength: true },
  })
  for (const original of rows) {
    const released = { ...original, releasedAt: toDate(now) }
    await transaction.releasedOriginal.upsert({
      where: { sha256: original.sha256 },
      create: released,
      update: released,
      select: { sha256: true },
    })
  }
  await transaction.original.deleteMany({ where: unused })
  return rows.map(({ sha256 }) => sha256)
}

/**
 * Removes the files of the originals that have been off the record for so many days, and keeps those whose bytes have come
 * again since. A file goes before the word that it is to go, so that one that is cut short is done again.
 */
async function removeReleasedOriginals(
  now: Instant,
  originalDays: number,
): Promise<void> {
  const db = await database()
  const store = await openPhotoStore()
  const due = await db.releasedOriginal.findMany({
    where: {
      releasedAt: {
        lte: toDate(addMinutes(now, -originalDays * minutesPerDay)),
      },
    },
    select: { sha256: true },
  })
  for (const where of due) {
    const isGone = await store.remove(
      where.sha256,
      async () => (await db.original.count({ where })) === 0,
    )
    if (isGone) await removeRenditions(where.sha256)
    const isBack = !isGone && (await db.original.count({ where })) > 0
    if (!isGone && !isBack) continue
    await db.$transaction((transaction) =>
      transaction.releasedOriginal.deleteMany({ where }),
    )
  }
}
