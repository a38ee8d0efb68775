import 'server-only'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { keepChange } from '#services/changes/changes'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { queueRenditions } from '#services/renditions/renditions'

/**
 * Turns a photo by hand, for a phone that did not know which way up it was held. Its original stays as it is; its
 * renditions, its size and the sheets it is on follow.
 *
 * @param quarterTurns clockwise, added to those before; negative turns it back
 * @returns how far it is turned now, 0 to 3; refused when there is no such photo or the turns are no whole number
 */
export async function turnPhoto(
  photoId: string,
  quarterTurns: number,
  at: Instant = now(),
): Promise<Result<{ readonly quarterTurns: number }>> {
  if (!Number.isSafeInteger(quarterTurns)) {
    return refused({
      kind: 'invalid',
      detail: 'Give the quarter turns as a whole number, such as 1.',
    })
  }
  const db = await database()
  const turned = await db.$transaction(async (transaction) => {
    const row = await transaction.photo.findUnique({
      where: { id: photoId },
      select: { jobId: true, sha256: true, quarterTurns: true },
    })
    if (row === null) return noPhoto
    const sum = row.quarterTurns + (quarterTurns % 4)
    const next = ((sum % 4) + 4) % 4
    return keepChange(
      transaction,
      { jobId: row.jobId, kind: 'photo-turned', now: at },
      { stepIds: [], photoIds: [], turnsOf: [photoId] },
      async () => {
        await transaction.photo.update({
          where: { id: photoId },
          data: { quarterTurns: next },
          select: { id: true },
        })
        await touchJob(transaction, row.jobId)
        return ok({ sha256: row.sha256, quarterTurns: next })
      },
    )
  })
  if (!turned.ok) return turned
  await queueRenditions([turned.value.sha256], turned.value.quarterTurns)
  return ok({ quarterTurns: turned.value.quarterTurns })
}

const noPhoto = refused({
  kind: 'not-found',
  detail: 'There is no such photo. It may have been removed.',
} as const)
