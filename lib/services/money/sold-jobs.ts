import 'server-only'
import { jobMoney } from '#core/money/job-money'
import { type SoldJob, finishesOf, kindsOf } from '#core/money/what-pays'
import { database } from '#services/database/open-database'
import { readJournals } from '#services/journal/read-journal'
import { readBooks } from '#services/money/books'
import { readRates } from '#services/money/rates'
import { notInBin } from '#services/bin/bin'
import { readWorkshop } from '#services/workshop/workshop'

/** So many sold jobs tell what pays; older ones were made at other prices. */
const latest = 100

/** The latest jobs that were sold for a price, each with what it earned. A fixed number of queries. */
export async function readSoldJobs(): Promise<readonly SoldJob[]> {
  const db = await database()
  const rows = await db.job.findMany({
    where: { sale: { priceMinor: { not: null } }, ...notInBin },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: latest,
    select: { id: true },
  })
  const ids = rows.map(({ id }) => id)
  const journals = await readJournals(ids)
  const books = await readBooks(ids)
  const rates = await readRates()
  const { currency } = await readWorkshop()
  return journals.flatMap((journal) => {
    const own = books.get(journal.job.id)
    const money = own && jobMoney(journal, own, rates, currency)
    if (money?.sold === undefined || money.sold === null) return []
    return [
      {
        id: journal.job.id,
        title: journal.job.title,
        kinds: kindsOf(journal),
        finishes: finishesOf(journal),
        earnedMinor: money.sold.earnedMinor,
        minutes: money.hours.minutes,
      },
    ]
  })
}
