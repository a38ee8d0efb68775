import 'server-only'
import { database } from '#services/database/open-database'
import { type Looks, looksOf } from '#services/renditions/looks-of'
import { openPicture } from '#services/renditions/open-picture'

/**
 * Writes down the looks of an original, unless they are known or nothing is recorded of it.
 *
 * @param looks as read while its renditions were made; where absent they are read from `file`
 * @param file its screen rendition
 */
export async function recordLooks(
  sha256: string,
  looks: Looks | undefined,
  file: string,
): Promise<void> {
  const db = await database()
  const row = await db.original.findUnique({
    where: { sha256 },
    select: { likeness: true, colours: true },
  })
  if (row === null || (row.likeness !== null && row.colours !== null)) return
  const found = looks ?? (await looksOf(openPicture(file)))
  if (found === undefined) return
  await db.$transaction((transaction) =>
    // It may be gone for good by now.
    transaction.original.updateMany({ where: { sha256 }, data: found }),
  )
}
