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
    return keepChange(
      transaction,
      { jobId, kind: 'handed-over', now: at },
      { stepIds: [], photoIds: [], handOverOf: jobId },
      async () => {
        await transaction.job.update({
          where: { id: jobId },
          data: {
            soldAt: soldAt === null ? null : toDate(soldAt),
            deliveredAt: deliveredAt === null ? null : toDate(deliveredAt),
          },
          select: { id: true },
        })
        await touchJob(transaction, jobId)
        return ok(undefined)
      },
    )
  })
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
