import 'server-only'
import type { Journal } from '#core/journal/journal'
import { foldRepeats } from '#core/photos/bursts'
import { countStepOrder } from '#core/placing/count-step-order'
import type { PlacingBurst } from '#core/placing/place'
import { proposePlaces } from '#core/placing/propose-places'
import { notInBin } from '#services/bin/bin'
import { database } from '#services/database/open-database'
import { readJournals } from '#services/journal/read-journal'
import { readLooks } from '#services/placing/read-looks'

/** A burst with its photos as they are shown: the sharpest of what looks the same, the others behind it. */
export type ShownBurst = PlacingBurst & {
  readonly folds: readonly {
    readonly front: string
    readonly behind: readonly string[]
  }[]
}

/** How a workshop works shows in its latest jobs. */
const jobsToLearnFrom = 10

/** Where the photos of a job that nobody has placed may belong, in order of time; empty when there are none. */
export async function readPlacing(
  journal: Journal,
): Promise<readonly ShownBurst[]> {
  const isOpen = journal.photos.some(
    ({ role, stepId }) => role === 'progress' && stepId === undefined,
  )
  if (!isOpen) return []
  const db = await database()
  const others = await db.job.findMany({
    where: { id: { not: journal.job.id }, steps: { some: {} }, ...notInBin },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: jobsToLearnFrom,
    select: { id: true },
  })
  const [looks, learnt] = await Promise.all([
    readLooks(journal.job.id),
    readJournals(others.map((job) => job.id)).then(countStepOrder),
  ])
  const photos = new Map(journal.photos.map((photo) => [photo.id, photo]))
  return proposePlaces(journal, looks, learnt).map((burst) => ({
    ...burst,
    folds: foldRepeats(
      burst.photoIds.flatMap((id) => {
        const photo = photos.get(id)
        return photo === undefined ? [] : { ...photo, ...looks.get(id) }
      }),
    ).map(({ front, behind }) => ({
      front: front.id,
      behind: behind.map((photo) => photo.id),
    })),
  }))
}
