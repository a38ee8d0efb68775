import type { Transaction } from '#services/database/open-database'

/** Raises the revision of a job; part of every change to it, so that what was computed from it is known to be stale. */
export async function touchJob(
  transaction: Transaction,
  jobId: string,
): Promise<void> {
  await transaction.job.update({
    where: { id: jobId },
    data: { revision: { increment: 1 } },
    select: { id: true },
  })
}
