import 'server-only'
import { database } from '#services/database/open-database'
import { readChecksum } from '#services/photo-store/read-checksum'
import { type Looks, looksOf } from '#services/renditions/looks-of'
import { openPicture } from '#services/renditions/open-picture'

/**
 * Writes down what nobody should wait for while a photo is kept: the looks of its original and the checksum of its bytes.
 * What is known already stays, and of an original that is not on record nothing is written.
 *
 * @param original its file
 * @param looks as read while its renditions were made; where absent they are read from `screen`
 * @param screen its screen rendition
 */
export async function recordFindings(
  sha256: string,
  original: string,
  looks: Looks | undefined,
  screen: string,
): Promise<void> {
  const db = await database()
  const row = await db.original.findUnique({
    where: { sha256 },
    select: { likeness: true, colours: true, crc32: true },
  })
  if (row === null) return
  const hasLooks = row.likeness !== null && row.colours !== null
  const found = hasLooks
    ? undefined
    : (looks ?? (await looksOf(openPicture(screen))))
  const checksum =
    row.crc32 === null ? await readChecksum(original, sha256) : undefined
  if (found === undefined && checksum === undefined) return
  await db.$transaction((transaction) =>
    // It may be gone for good by now.
    transaction.original.updateMany({
      where: { sha256 },
      data: {
        ...found,
        ...(checksum !== undefined && { crc32: BigInt(checksum) }),
      },
    }),
  )
}
