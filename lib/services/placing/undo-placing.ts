import 'server-only'
import { type Result, ok, refused } from '#core/result'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { toDate, toInstant } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { type PlacingRecord, placingRecord } from '#services/placing/schema'
import { showSurfaces } from '#services/steps/steps'

/** What was placed last, while it can be taken back. */
export type LastPlacing = {
  readonly id: string
  readonly placedAt: Instant
  readonly photoCount: number
  /** How many steps were added for them. */
  readonly stepCount: number
  readonly isUndone: boolean
}

/** For so long a page offers to take it back; the record itself stays. */
const offeredDays = 1

/** What was placed last in a job within a day, taken back or not; undefined when nothing was. */
export async function readLastPlacing(
  jobId: string,
  now: Instant,
): Promise<LastPlacing | undefined> {
  const db = await database()
  const row = await db.placing.findFirst({
    where: {
      jobId,
      placedAt: { gte: toDate(addMinutes(now, -offeredDays * minutesPerDay)) },
    },
    orderBy: [{ placedAt: 'desc' }, { id: 'desc' }],
    select: { id: true, placedAt: true, undoneAt: true, record: true },
  })
  if (row === null) return undefined
  const { photos, steps } = readRecord(row.record)
  return {
    id: row.id,
    placedAt: toInstant(row.placedAt),
    photoCount: photos.length,
    stepCount: steps.length,
    isUndone: row.undoneAt !== null,
  }
}

/**
 * Takes back what was placed in one go: its photos are as nobody had placed them, and the steps that were added for them
 * go. A photo that was placed elsewhere since stays there, and so does a step that got other photos or was filled in.
 *
 * @returns how many photos were taken back; refused when there is no such placing in this job or it was taken back before
 */
export async function undoPlacing(
  jobId: string,
  placingId: string,
  now: Instant,
): Promise<Result<{ readonly photoCount: number }>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const row = await transaction.placing.findFirst({
      where: { id: placingId, jobId },
      select: { record: true, undoneAt: true },
    })
    if (row === null) {
      return refused({
        kind: 'not-found',
        detail: 'Nothing was placed here that could be taken back.',
      } as const)
    }
    if (row.undoneAt !== null) {
      return refused({
        kind: 'conflict',
        detail: 'It has been taken back already.',
      } as const)
    }
    const record = readRecord(row.record)
    const photoCount = await takeBack(transaction, record)
    await removeEmptySteps(transaction, record)
    await transaction.placing.update({
      where: { id: placingId },
      data: { undoneAt: toDate(now) },
      select: { id: true },
    })
    await touchJob(transaction, jobId)
    return ok({ photoCount })
  })
}

function readRecord(text: string): PlacingRecord {
  return placingRecord.parse(JSON.parse(text))
}

async function takeBack(
  transaction: Transaction,
  { photos }: PlacingRecord,
): Promise<number> {
  let count = 0
  for (const { id, step, role, surfaces } of photos) {
    const taken = await transaction.photo.updateMany({
      where: { id, stepId: step, role },
      data: { stepId: null, role: 'progress' },
    })
    if (taken.count === 0) continue
    count += 1
    if (step !== null) await showSurfaces(transaction, surfaces, [id])
  }
  return count
}

/** A step that was only made for its photos says nothing without them; nor does the product that was named with them. */
async function removeEmptySteps(
  transaction: Transaction,
  { steps, products }: PlacingRecord,
): Promise<void> {
  const asAdded = Object.entries(products).map(([id, productId]) => ({
    id,
    productId,
  }))
  await transaction.step.deleteMany({
    where: {
      id: { in: [...steps] },
      photos: { none: {} },
      answers: { none: {} },
      OR: [{ productId: null }, ...asAdded],
      method: null,
      thinningPercent: null,
      grit: null,
      amount: null,
      weighedBeforeGrams: null,
      weighedAfterGrams: null,
      hours: null,
      startedAt: null,
      finishedAt: null,
      note: null,
    },
  })
}
