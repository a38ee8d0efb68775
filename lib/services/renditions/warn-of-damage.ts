import 'server-only'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'

/** What the owner of a photo is told when its file is odd or its picture damaged. */
export const flawWarning =
  'The file has flaws, and the picture may be damaged. Look at it here before you clear it from your phone.'

/** Writes down on every photo of an original that it turned out to be flawed; once, however often it is found. */
export async function warnOfDamage(sha256: string): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    const photos = await transaction.photo.findMany({
      where: { sha256 },
      select: { id: true, jobId: true, warnings: true },
    })
    for (const photo of photos) {
      const before: unknown = JSON.parse(photo.warnings)
      const warnings: unknown[] = Array.isArray(before) ? before : []
      if (warnings.includes(flawWarning)) continue
      await transaction.photo.update({
        where: { id: photo.id },
        data: { warnings: JSON.stringify([...warnings, flawWarning]) },
        select: { id: true },
      })
      await touchJob(transaction, photo.jobId)
    }
  })
}
