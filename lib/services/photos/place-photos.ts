import 'server-only'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { keepChange } from '#services/changes/changes'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import type { PhotoPlacing } from '#services/photos/schema'
import { placePhotosOnStep, showSurfaces } from '#services/steps/steps'

/** Says what photos of a job show: their role, view, surfaces, or the step they belong to. */
export async function placePhotos(
  jobId: string,
  placing: PhotoPlacing,
  at: Instant = now(),
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const ids = [...new Set(placing.photos)]
    const found = await transaction.photo.count({
      where: { id: { in: ids }, jobId, ...notInBin },
    })
    if (found !== ids.length) {
      return refused({
        kind: 'not-found',
        detail: 'One of the photos is not part of this job. Choose them again.',
      })
    }
    // A refusal commits what was written before it, so everything is checked first.
    const surfaceIds =
      placing.surfaces === undefined
        ? undefined
        : [...new Set(placing.surfaces)]
    if (surfaceIds !== undefined) {
      const known = await transaction.surface.count({
        where: { id: { in: surfaceIds }, piece: { jobId } },
      })
      if (known !== surfaceIds.length) {
        return refused({
          kind: 'invalid',
          detail:
            'One of the surfaces is not part of this job. Choose them again.',
        })
      }
    }
    const step =
      typeof placing.step === 'string'
        ? await transaction.step.findFirst({
            where: { id: placing.step, jobId },
            select: { id: true, surfaces: { select: { surfaceId: true } } },
          })
        : undefined
    if (step === null) {
      return refused({
        kind: 'not-found',
        detail: 'There is no such step in this job. It may have been removed.',
      })
    }
    return keepChange(
      transaction,
      { jobId, kind: 'photos-placed', now: at },
      { stepIds: [], photoIds: ids, wordsOf: ids },
      async () => {
        if (step !== undefined) {
          await placePhotosOnStep(
            transaction,
            step.id,
            step.surfaces.map((on) => on.surfaceId),
            ids,
          )
        }
        if (surfaceIds !== undefined) {
          await showSurfaces(transaction, surfaceIds, ids)
        }
        await transaction.photo.updateMany({
          where: { id: { in: ids } },
          data: {
            ...(placing.role === undefined ? {} : { role: placing.role }),
            ...(placing.view === undefined ? {} : { view: placing.view }),
            ...(placing.flaw === undefined ? {} : { flaw: placing.flaw }),
            ...(placing.step === null ? { stepId: null } : {}),
          },
        })
        await touchJob(transaction, jobId)
        return ok(undefined)
      },
    )
  })
}
