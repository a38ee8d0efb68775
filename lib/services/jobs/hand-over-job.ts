import 'server-only'
import { type Result, ok } from '#core/result'
import type { Instant } from '#core/units'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { noJob } from '#services/jobs/jobs'

/** When a job was sold, and when the buyer took it; null: it was not. */
export type HandOver = {
  readonly soldAt: Instant | null
  readonly deliveredAt: Instant | null
}

/** Keeps when a job was sold and when it was delivered, which the finish rules hold against its cure. */
export async function handOverJob(
  jobId: string,
  { soldAt, deliveredAt }: HandOver,
): Promise<Result<undefined>> {
  const db = await database()
  const { count } = await db.$transaction((transaction) =>
    transaction.job.updateMany({
      where: { id: jobId },
      data: {
        soldAt: soldAt === null ? null : toDate(soldAt),
        deliveredAt: deliveredAt === null ? null : toDate(deliveredAt),
        revision: { increment: 1 },
      },
    }),
  )
  return count === 0 ? noJob : ok(undefined)
}
