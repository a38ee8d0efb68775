import 'server-only'
import { goesAt } from '#core/bin/bin-times'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { readBinSettings } from '#services/bin/bin-settings'
import { toDate, toInstant } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'

/** What every query of what is in use asks for, be it jobs, pieces, surfaces, steps or photos: what is in the bin is in no list, no count and on no sheet. */
export const notInBin = { removedAt: null } as const

/** A photo that its owner has put in the bin. */
export type BinnedPhoto = {
  readonly id: string
  readonly fileName: string
  readonly jobId: string
  readonly jobTitle: string
  readonly takenAt: Instant
  readonly removedAt: Instant
  /** When it goes for good; absent while the bin keeps everything. */
  readonly goesAt?: Instant
}

const mostShown = 500

/** What every query of what is in the bin asks for. */
export const inBin = { removedAt: { not: null } } as const
/** Photos that went in by themselves: those of a job, a step or a surface that is there too come back with it. */
const alone = {
  ...inBin,
  job: notInBin,
  NOT: [{ step: inBin }, { surfaces: { some: {}, every: { surface: inBin } } }],
}

/** The photos that are in the bin by themselves, the last removed first, and how many there are in all; the oldest of very many are left out. */
export async function readBin(): Promise<{
  readonly photos: readonly BinnedPhoto[]
  readonly count: number
}> {
  const db = await database()
  const [leaving, count, rows] = await Promise.all([
    readLeaving(),
    db.photo.count({ where: alone }),
    db.photo.findMany({
      where: alone,
      orderBy: [{ removedAt: 'desc' }, { id: 'asc' }],
      take: mostShown,
      select: {
        id: true,
        fileName: true,
        jobId: true,
        takenAt: true,
        removedAt: true,
        job: { select: { title: true } },
      },
    }),
  ])
  const photos = rows.flatMap(({ job, takenAt, removedAt, ...row }) =>
    removedAt === null
      ? []
      : {
          ...row,
          jobTitle: job.title,
          takenAt: toInstant(takenAt),
          ...leaving(toInstant(removedAt)),
        },
  )
  return { photos, count }
}

/** Tells of a moment of removal when that which was removed then goes for good. */
export async function readLeaving(): Promise<
  (removedAt: Instant) => {
    readonly removedAt: Instant
    readonly goesAt?: Instant
  }
> {
  const { rules, countsFrom } = await readBinSettings()
  return (removedAt) => {
    const goes = goesAt(removedAt, rules, countsFrom ?? removedAt)
    return { removedAt, ...(goes === undefined ? {} : { goesAt: goes }) }
  }
}

/** How many photos of a job are in the bin. */
export async function countBinned(jobId: string): Promise<number> {
  const db = await database()
  return db.photo.count({ where: { jobId, ...alone } })
}

/**
 * Puts a photo of a job in the bin. Its original, its renditions and what it shows are kept, so that it can come back as
 * it was, until its time in the bin is over. A photo that is there already stays there.
 *
 * @returns refused when the job has no such photo
 */
export async function removePhoto(
  jobId: string,
  photoId: string,
  now: Instant,
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const { count } = await transaction.photo.updateMany({
      where: { id: photoId, jobId, ...notInBin },
      data: { removedAt: toDate(now) },
    })
    if (count > 0) await touchJob(transaction, jobId)
    return count > 0 || (await isThere(transaction, jobId, photoId))
      ? ok(undefined)
      : refused(noPhoto)
  })
}

/**
 * Takes a photo out of the bin and back into its job, with all that it showed; what has been removed since, such as its
 * step, it no longer shows.
 *
 * @returns refused when the job has no such photo
 */
export async function restorePhoto(
  jobId: string,
  photoId: string,
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    if (!(await isThere(transaction, jobId, photoId))) return refused(noPhoto)
    const back = await takeOutOfBin(transaction, photoId)
    if (back) await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

/** Takes a photo out of the bin; returns whether it was in it. */
export async function takeOutOfBin(
  transaction: Transaction,
  photoId: string,
): Promise<boolean> {
  const { count } = await transaction.photo.updateMany({
    where: { id: photoId, removedAt: { not: null } },
    data: { removedAt: null },
  })
  return count > 0
}

const noPhoto: Refusal = {
  kind: 'not-found',
  detail: 'There is no such photo in this job.',
}

async function isThere(
  transaction: Transaction,
  jobId: string,
  photoId: string,
): Promise<boolean> {
  const found = await transaction.photo.count({ where: { id: photoId, jobId } })
  return found > 0
}
