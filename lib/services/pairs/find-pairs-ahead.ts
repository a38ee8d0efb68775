import 'server-only'
import { notInBin } from '#services/bin/bin'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { findPairsLater, pairsFound, readPairs } from '#services/pairs/pairs'
import { readPairPicture } from '#services/pairs/read-pair-picture'
import {
  renditionsIdle,
  renditionsWaiting,
} from '#services/renditions/renditions'

/** A job that changed is left alone for so long: photos still come, or are being placed. */
const betweenLooks = 30_000

/** As a job was when it was last looked at. */
type Known = {
  readonly revision: number
  /** Whether its pairs were looked for as it is. */
  readonly isSought: boolean
}

// Kept on the global object: a development server loads modules anew.
const kept = globalThis as typeof globalThis & {
  coatbookPairsAhead?: NodeJS.Timeout
  coatbookPairsAheadUnderWay?: boolean
}

/**
 * Finds the pairs of all jobs while the program runs and makes their pictures, so that they are there when a sheet or a
 * page of the portfolio is asked for: once the renditions that the last run left unfinished are made, and then whenever a
 * job that changed has come to rest.
 *
 * @returns resolves when the first look is over; it never fails
 */
export async function startFindingPairs(): Promise<void> {
  clearInterval(kept.coatbookPairsAhead)
  const known = new Map<string, Known>()
  const look = (isFirst: boolean) =>
    findPairsAhead(known, isFirst).catch((error: unknown) => {
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
 * Finds the pairs of the jobs that are as they were at the last look, one job after another; gives way to photos that come
 * meanwhile.
 *
 * @param known how the jobs were, by their ids; brought up to date
 * @param isFirst whether nothing was looked at before: then no job is waited for
 */
export async function findPairsAhead(
  known: Map<string, Known>,
  isFirst: boolean,
): Promise<void> {
  if (kept.coatbookPairsAheadUnderWay === true) return
  kept.coatbookPairsAheadUnderWay = true
  try {
    for (const { id, revision } of await jobsWithBothEnds()) {
      if (renditionsWaiting() > 0) return
      const before = known.get(id)
      const isAtRest = isFirst || before?.revision === revision
      if (isAtRest && before?.isSought !== true) {
        await readyPairs(id)
      }
      known.set(id, { revision, isSought: isAtRest })
    }
  } finally {
    kept.coatbookPairsAheadUnderWay = false
  }
}

/** Finds the pairs of a job, and makes their pictures that are not kept yet. */
async function readyPairs(jobId: string): Promise<void> {
  try {
    await findPairsLater(jobId, now())
    await pairsFound(jobId)
    for (const { id, state } of await readPairs(jobId)) {
      if (!('homography' in state)) continue
      // The after is made with it.
      await readPairPicture(jobId, id, 'before')
    }
  } catch (error) {
    // What fails is tried when it is asked for, and says so there; other jobs have nothing to do with it.
    console.error(`The pairs of job ${jobId} are not ready.`, error)
  }
}

async function jobsWithBothEnds() {
  const db = await database()
  const has = (role: string) => ({ photos: { some: { role, ...notInBin } } })
  return db.job.findMany({
    where: { ...notInBin, AND: [has('before'), has('after')] },
    orderBy: { createdAt: 'desc' },
    select: { id: true, revision: true },
  })
}
