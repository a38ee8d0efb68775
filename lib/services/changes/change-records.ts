import 'server-only'
import { type Refusal, type Result, refused } from '#core/result'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'

/** A change as it is kept, with what it reached before it and after it, as JSON; of the workshop itself where `jobId` is null. */
export type ChangeRecord = {
  readonly id: string
  readonly kind: string
  readonly changedAt: Instant
  readonly undoneAt: Instant | null
  readonly before: string
  readonly after: string
}

/** Why a change is not undone that something else was done to since. */
export const changedSince: Refusal = {
  kind: 'conflict',
  detail:
    'It cannot be undone: what it changed was changed again since. Undo what came later first, or mend it by hand.',
}
const undoneBefore: Refusal = {
  kind: 'conflict',
  detail: 'It has been undone already.',
}

/** Writes down a change with what it reached before it and after it; what changed nothing leaves no trace. */
export async function recordChange(
  transaction: Transaction,
  about: {
    readonly jobId: string | null
    readonly kind: string
    readonly now: Instant
  },
  states: { readonly before: unknown; readonly after: unknown },
): Promise<void> {
  const before = JSON.stringify(states.before)
  const after = JSON.stringify(states.after)
  if (before === after) return
  await transaction.change.create({
    data: {
      id: newId(),
      jobId: about.jobId,
      kind: about.kind,
      changedAt: toDate(about.now),
      before,
      after,
    },
    select: { id: true },
  })
}

const mostListed = 100

/** The changes of a job, or with null of the workshop, the latest first; the oldest of very many are left out. */
export async function readRecords(
  jobId: string | null,
): Promise<readonly ChangeRecord[]> {
  const db = await database()
  const rows = await db.change.findMany({
    where: { jobId },
    orderBy: [{ changedAt: 'desc' }, { id: 'desc' }],
    take: mostListed,
    select: {
      id: true,
      kind: true,
      changedAt: true,
      undoneAt: true,
      before: true,
      after: true,
    },
  })
  return rows.map((row) => ({
    ...row,
    changedAt: toInstant(row.changedAt),
    undoneAt: row.undoneAt === null ? null : toInstant(row.undoneAt),
  }))
}

/** For so long a page offers to undo a change; the record itself stays. */
const offeredDays = 30

/** The earliest moment of a change that a page still offers to undo. */
export function offeredSince(now: Instant): Instant {
  return addMinutes(now, -offeredDays * minutesPerDay)
}

/**
 * Undoes a change that is on record, once: what it did is put back by `putBack`, and it is marked as undone.
 *
 * @param about which change it is; what to say where there is none; how its states are read
 * @param putBack what it refuses stays as it is
 */
export async function undoRecord<State, Done>(
  transaction: Transaction,
  about: {
    readonly id: string
    readonly jobId: string | null
    readonly now: Instant
    readonly noChange: Refusal
    readonly readState: (text: string) => State
  },
  putBack: (before: State, after: State) => Promise<Result<Done>>,
): Promise<Result<Done>> {
  const { id, jobId, now, noChange, readState } = about
  const row = await transaction.change.findFirst({
    where: { id, jobId },
    select: { undoneAt: true, before: true, after: true },
  })
  if (row === null) return refused(noChange)
  if (row.undoneAt !== null) return refused(undoneBefore)
  const done = await putBack(readState(row.before), readState(row.after))
  if (!done.ok) return done
  await transaction.change.update({
    where: { id },
    data: { undoneAt: toDate(now) },
    select: { id: true },
  })
  return done
}
