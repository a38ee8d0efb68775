import type { PlainSql } from '#services/database/one-connection'
import type { Transaction } from '#services/database/open-database'

const raiseRevision =
  'UPDATE "Job" SET "revision" = "revision" + 1 WHERE "id" = ?'

/** Raises the revision of a job; part of every change to it, so that what was computed from it is known to be stale. */
export async function touchJob(
  transaction: Transaction,
  jobId: string,
): Promise<void> {
  await transaction.$executeRawUnsafe(raiseRevision, jobId)
}

/** The same, where the change itself is written in plain SQL. */
export function touchJobInPlainSql(sql: PlainSql, jobId: string): void {
  sql.run(raiseRevision, jobId)
}
