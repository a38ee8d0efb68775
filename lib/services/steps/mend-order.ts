import 'server-only'
import {
  type CoatCount,
  type RenumberedCoat,
  renumberedCoats,
} from '#core/journal/renumber-coats'
import { type Result, ok, refused } from '#core/result'
import { stepNeighbour } from '#core/timeline/step-neighbour'
import type { Instant } from '#core/units'
import { keepChange } from '#services/changes/changes'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { noJob } from '#services/jobs/jobs'
import { readJobTimeline } from '#services/timeline/timeline'

/**
 * Numbers coats anew in the order of the work, as one change that can be undone.
 *
 * @param counts the kinds and surfaces; coats elsewhere keep their numbers
 * @returns the coats that got another number
 */
export async function renumberCoats(
  jobId: string,
  counts: readonly CoatCount[],
  now: Instant,
): Promise<Result<readonly RenumberedCoat[]>> {
  const read = await readJobTimeline(jobId)
  if (read === undefined) return noJob
  const changed = renumberedCoats(read.timeline.lanes, counts)
  const db = await database()
  return db.$transaction((transaction) =>
    keepChange(
      transaction,
      { jobId, kind: 'renumbered', now },
      {
        stepIds: [...new Set(changed.map(({ stepId }) => stepId))],
        photoIds: [],
      },
      async () => {
        for (const { stepId, surfaceId, was, coat } of changed) {
          await transaction.stepSurface.updateMany({
            where: { stepId, surfaceId, coat: was, step: { jobId } },
            data: { coat },
          })
        }
        await touchJob(transaction, jobId)
        return ok(changed)
      },
    ),
  )
}

/**
 * Puts a step before or after its neighbour on a surface, where no time says which came first: the two change places in
 * the order in which they were written down.
 *
 * @returns refused when there is no such step there, when it is the first or last, and where times tell the order
 */
export async function moveStep(
  jobId: string,
  stepId: string,
  to: { readonly surface: string; readonly toward: 'earlier' | 'later' },
  now: Instant,
): Promise<Result<undefined>> {
  const read = await readJobTimeline(jobId)
  if (read === undefined) return noJob
  const lane = read.timeline.lanes.find(
    ({ surface }) => surface.id === to.surface,
  )
  const other = stepNeighbour(lane?.steps ?? [], stepId, to.toward)
  if (other === 'none') {
    return refused({
      kind: 'not-found',
      detail: `There is no step ${to.toward} than that on this surface.`,
    })
  }
  if (other === 'by-time') {
    return refused({
      kind: 'conflict',
      detail:
        'Their times tell which came first. Mend the time of the step, or that of its photos.',
    })
  }
  const db = await database()
  return db.$transaction((transaction) =>
    keepChange(
      transaction,
      { jobId, kind: 'changed', now },
      { stepIds: [stepId, other.id], photoIds: [] },
      async () => {
        const rows = await transaction.step.findMany({
          where: { id: { in: [stepId, other.id] }, jobId },
          orderBy: { createdAt: 'asc' },
          select: { id: true, createdAt: true },
        })
        const [first, second] = rows
        if (first === undefined || second === undefined) return noJob
        // Two that were written down in the same instant are told apart by a millisecond.
        const laterAt = new Date(
          Math.max(second.createdAt.getTime(), first.createdAt.getTime() + 1),
        )
        const leadId = to.toward === 'earlier' ? stepId : other.id
        for (const { id } of rows) {
          await transaction.step.update({
            where: { id },
            data: { createdAt: id === leadId ? first.createdAt : laterAt },
            select: { id: true },
          })
        }
        await touchJob(transaction, jobId)
        return ok(undefined)
      },
    ),
  )
}
