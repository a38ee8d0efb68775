import 'server-only'
import type { Journal, WorkshopSettings } from '#core/journal/journal'
import type { JobBooks, Rates } from '#core/money/job-books'
import { type JobMoney, jobMoney } from '#core/money/job-money'
import { readJournal } from '#services/journal/read-journal'
import { readBooks } from '#services/money/books'
import { readRates } from '#services/money/rates'
import { readWorkshop } from '#services/workshop/workshop'

/** A job's money with what it was worked out from. */
export type ReadMoney = {
  readonly money: JobMoney
  readonly journal: Journal
  readonly books: JobBooks
  readonly rates: Rates
  readonly settings: WorkshopSettings
}

/**
 * The money of a job, or undefined when there is none with this id.
 *
 * @param suppose an hourly rate in place of the workshop's, and a price to try, in minor units
 */
export async function readMoney(
  jobId: string,
  suppose: { readonly hourlyMinor?: number; readonly priceMinor?: number } = {},
): Promise<ReadMoney | undefined> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return undefined
  const all = await readBooks([jobId])
  const books = all.get(jobId) ?? { costs: [], work: [], hours: [], sale: {} }
  const rates = await readRates()
  const settings = await readWorkshop()
  return {
    money: jobMoney(journal, books, rates, settings.currency, suppose),
    journal,
    books,
    rates,
    settings,
  }
}
