import 'server-only'
import type { z } from 'zod'
import { type Result, ok, refused } from '#core/result'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import type { surfaceAreasTyped } from '#services/materials/schema'

/** Keeps the areas that the owner measured; with null a surface goes by the size of its piece again. */
export async function changeAreas(
  jobId: string,
  areas: z.output<typeof surfaceAreasTyped>,
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const ids = [...new Set(areas.map(({ surface }) => surface))]
    const known = await transaction.surface.count({
      where: { id: { in: ids }, piece: { jobId } },
    })
    // A refusal commits what was written before it, so everything is checked first.
    if (known !== ids.length) {
      return refused({
        kind: 'not-found',
        detail: 'One of the surfaces is not part of this job. Open it anew.',
      } as const)
    }
    for (const { surface, squareMetres } of areas) {
      await transaction.surface.update({
        where: { id: surface },
        data: { areaSquareMetres: squareMetres },
        select: { id: true },
      })
    }
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}
