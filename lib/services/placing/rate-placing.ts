import 'server-only'
import { countStepOrder } from '#core/placing/count-step-order'
import { type Rating, rateProposals } from '#core/placing/rate-proposals'
import { notInBin } from '#services/bin/bin'
import { database } from '#services/database/open-database'
import { readJournals } from '#services/journal/read-journal'
import { readLooks } from '#services/placing/read-looks'

/**
 * How well proposals do on each job of this journal, by what its owner said the photos show: that is hidden, and nothing
 * is learnt from the job itself, only from the others.
 */
export async function ratePlacing(): Promise<readonly Rating[]> {
  const db = await database()
  const jobs = await db.job.findMany({
    where: notInBin,
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: { id: true },
  })
  const journals = await readJournals(jobs.map((job) => job.id))
  const ratings: Rating[] = []
  for (const journal of journals) {
    const others = journals.filter((other) => other !== journal)
    ratings.push(
      rateProposals(
        journal,
        await readLooks(journal.job.id),
        countStepOrder(others),
      ),
    )
  }
  return ratings
}
