import 'server-only'
import { database } from '#services/database/open-database'

/** Writes down the checksums of originals that were kept before checksums were. */
export async function keepChecksums(
  found: ReadonlyMap<string, number>,
): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    for (const [sha256, crc32] of found) {
      await transaction.original.updateMany({
        where: { sha256 },
        data: { crc32: BigInt(crc32) },
      })
    }
  })
}
