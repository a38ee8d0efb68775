import 'server-only'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { findPairsLater, pairsFound, readPairs } from '#services/pairs/pairs'
import { readyPairPictures } from '#services/pairs/read-pair-picture'
import {
  renditionsIdle,
  renditionsWaiting,
} from '#services/renditions/renditions'

/** A job that changed is left alone for so long: photos still come, or are being placed. */
const betweenLooks = 30_000
/** Of the jobs that a start comes upon so many, the newest, are looked at; older ones once they change or are asked for. */
const atStart = 12

/** What was seen of the jobs so far. */
export type SeenJobs = {
  /** Raised by every change to any job; as of a look that left nothing over. */
  stamp?: string
  /** By the job's id. */
  readonly jobs: Map<
    string,
    {
      /** What pairs are told by: of each before and after its id, view and turns. */
      readonly photos: string
      /** Whether its pairs were looked for as it is. */
      readonly isSought: boolean
    }
  >
}

// Kept on the global object: a development server loads modules anew.
const kept = globalThis as typeof globalThis & {
  coatbookPairsAhead?: NodeJS.Timeout
  coatbookPairsAheadUnderWay?: boolean
}

/**
 * Finds the pairs of jobs while the program runs and makes the pictures that the page of sheets shows of them, so that they
 * are there when it is asked for: once the renditions that the last run left unfinished are made, and then whenever a job
 * that changed has come to rest.
 *
 * @returns resolves when the first look is over; it never fails
 */
export async function startFindingPairs(): Promise<void> {
  clearInterval(kept.coatbookPairsAhead)
  const seen: SeenJobs = { jobs: new Map() }
  const look = (isFirst: boolean) =>
    findPairsAhead(seen, now(), isFirst).catch((error: unknown) => {
      // Whatever was not found is looked for when its page is asked for.
      console.error('Pairs could not be looked for ahead.', error)
    })
  kept.coatbookPairsAhead = setInterval(() => {
    void look(false)
  }, betweenLooks)
  kept.coatbookPairsAhead.unref()
  await renditionsIdle()
  await look(true)
}

/**
 * Finds the pairs of the jobs whose photos are as they were at the last look, one job after another, one go for each change;
 * gives way to photos that come meanwhile.
 *
 * @param seen what was seen at the last looks; brought up to date
 * @param isFirst whether nothing was looked at before: the newest jobs then count as being at rest, older ones as sought
 */
export async function findPairsAhead(
  seen: SeenJobs,
  at: Instant,
  isFirst: boolean,
): Promise<void> {
  if (kept.coatbookPairsAheadUnderWay === true) return
  kept.coatbookPairsAheadUnderWay = true
  try {
    const stamp = await stampOfJobs()
    if (seen.stamp === stamp) return
    const jobs = await jobsWithBothEnds()
    if (isFirst) {
      for (const [index, { id, photos }] of jobs.entries())
        seen.jobs.set(id, { photos, isSought: index >= atStart })
    }
    let isAllSought = true
    for (const { id, photos } of jobs) {
      if (isBusy()) return
      const before = seen.jobs.get(id)
      const isSought =
        before?.photos === photos &&
        (before.isSought || (await readyPairs(id, at)))
      seen.jobs.set(id, { photos, isSought })
      isAllSought &&= isSought
    }
    // What the look itself changed is met by the next one, which then finds nothing to do.
    if (isAllSought) seen.stamp = stamp
  } finally {
    kept.coatbookPairsAheadUnderWay = false
  }
}

function isBusy(): boolean {
  return renditionsWaiting() > 0
}

/**
 * Finds the pairs of a job, and makes their pictures that are not kept yet.
 *
 * @returns whether that is done, well or not; it is not where photos came
 */
async function readyPairs(jobId: string, at: Instant): Promise<boolean> {
  try {
    await findPairsLater(jobId, at, isBusy)
    await pairsFound(jobId)
    for (const { id, state } of await readPairs(jobId)) {
      if (isBusy()) return false
      if ('homography' in state) await readyPairPictures(jobId, id)
    }
    return !isBusy()
  } catch (error) {
    // What fails is tried when it is asked for, and says so there; other jobs have nothing to do with it.
    console.error(`The pairs of job ${jobId} are not ready.`, error)
    return true
  }
}

async function stampOfJobs(): Promise<string> {
  const db = await database()
  const { _count, _sum } = await db.job.aggregate({
    _count: true,
    _sum: { revision: true },
  })
  return `${_count} ${_sum.revision ?? 0}`
}

async function jobsWithBothEnds() {
  const db = await database()
  const has = (role: string) => ({ photos: { some: { role, ...notInBin } } })
  const rows = await db.job.findMany({
    where: { ...notInBin, AND: [has('before'), has('after')] },
    orderBy: { createdAt: 'desc' },
    select: {
      id: true,
      photos: {
        where: { role: { in: ['before', 'after'] }, ...notInBin },
        orderBy: { id: 'asc' },
        select: { id: true, role: true, view: true, quarterTurns: true },
      },
    },
  })
  return rows.map((job) => ({ ...job, photos: JSON.stringify(job.photos) }))
}
