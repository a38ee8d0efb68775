import 'server-only'
import { readColourGrid } from '#core/photos/colour-grid'
import type { PhotoLook } from '#core/placing/sequence-items'
import { present } from '#services/database/instants'
import { database } from '#services/database/open-database'

/** What the photos of a job look like, by their ids; those that nothing is known of yet are left out. One query. */
export async function readLooks(
  jobId: string,
): Promise<ReadonlyMap<string, PhotoLook>> {
  const db = await database()
  const rows = await db.photo.findMany({
    where: { jobId },
    select: {
      id: true,
      original: { select: { likeness: true, sharpness: true, colours: true } },
    },
  })
  return new Map(
    rows.map(({ id, original: { colours, ...look } }) => [
      id,
      present({
        ...look,
        colours: colours === null ? null : (readColourGrid(colours) ?? null),
      }),
    ]),
  )
}
