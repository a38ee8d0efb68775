import 'server-only'
import { type HandOver, whyNotHandedOver } from '#core/journal/hand-over'
import { type Result, ok, refused } from '#core/result'
import { type Instant, instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { keepChange } from '#services/changes/changes'
import { now } from '#services/clock'
import { toDate, toInstant } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { noJob } from '#services/jobs/jobs'
import { readWorkshop } from '#services/workshop/workshop'

/** Marks a job as finished, or opens it again with null. */
export async function finishJob(
  jobId: string,
  finishedAt: Instant | null,
  at: Instant = now(),
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const job = await transaction.job.findUnique({
      where: { id: jobId },
      select: { id: true },
    })
    return job === null
      ? noJob
      : keepDays(transaction, jobId, { finishedAt: dateOrNull(finishedAt) }, at)
  })
}

/**
 * Keeps when a job was sold and when it was delivered, which the finish rules hold against its cure.
 *
 * @returns refused, with `sold` or `delivered` as its field, for a day that cannot be
 */
export async function handOverJob(
  jobId: string,
  { soldAt, deliveredAt }: HandOver,
  at: Instant = now(),
): Promise<Result<undefined>> {
  const db = await database()
  const workshop = await readWorkshop()
  return db.$transaction(async (transaction) => {
    const job = await transaction.job.findUnique({
      where: { id: jobId },
      select: { client: true },
    })
    if (job === null) return noJob
    const begunAt = await begunAtOf(transaction, jobId)
    const wrong = whyNotHandedOver(
      { soldAt, deliveredAt },
      {
        isOrdered: job.client !== null,
        ...(begunAt !== undefined && { begunAt }),
      },
      at,
      workshop,
    )
    if (wrong !== undefined) {
      return refused({
        kind: 'invalid',
        detail: wrong.reason,
        field: wrong.day,
      })
    }
    return keepDays(
      transaction,
      jobId,
      { soldAt: dateOrNull(soldAt), deliveredAt: dateOrNull(deliveredAt) },
      at,
    )
  })
}

/** Writes the days down, as a change that can be undone. */
function keepDays(
  transaction: Transaction,
  jobId: string,
  days: {
    readonly finishedAt?: Date | null
    readonly soldAt?: Date | null
    readonly deliveredAt?: Date | null
  },
  at: Instant,
): Promise<Result<undefined>> {
  return keepChange(
    transaction,
    { jobId, kind: 'handed-over', now: at },
    { stepIds: [], photoIds: [], handOverOf: jobId },
    async () => {
      await transaction.job.update({
        where: { id: jobId },
        data: days,
        select: { id: true },
      })
      await touchJob(transaction, jobId)
      return ok(undefined)
    },
  )
}

function dateOrNull(at: Instant | null): Date | null {
  return at === null ? null : toDate(at)
}

/** The first moment that a photo or a step of the job can be of. */
async function begunAtOf(
  transaction: Transaction,
  jobId: string,
): Promise<Instant | undefined> {
  const photos = await transaction.photo.aggregate({
    where: { jobId, ...notInBin },
    _min: { takenEarliest: true },
  })
  const steps = await transaction.step.aggregate({
    where: { jobId, ...notInBin },
    _min: { startedAt: true, finishedAt: true },
  })
  const moments = [
    photos._min.takenEarliest,
    steps._min.startedAt,
    steps._min.finishedAt,
  ].flatMap((one) => (one === null ? [] : toInstant(one)))
  return moments.length === 0 ? undefined : instant(Math.min(...moments))
}
