import 'server-only'
import type { z } from 'zod'
import type { Rates } from '#core/money/job-books'
import { present } from '#services/database/instants'
import { database } from '#services/database/open-database'
import type { ratesFacts } from '#services/money/schema'
import { workshopRow } from '#services/workshop/workshop'

const columns = {
  hourlyMinor: true,
  yearlyOverheadMinor: true,
  productiveHours: true,
  feePercent: true,
  feeFixedMinor: true,
  setUpMinutes: true,
  cleanUpMinutes: true,
} as const

/** What an hour and a sale cost in the workshop; empty while nobody has said. */
export async function readRates(): Promise<Rates> {
  const db = await database()
  const row = await db.rates.findUnique({
    where: workshopRow,
    select: columns,
  })
  return row === null ? {} : present(row)
}

/** Keeps what an hour and a sale cost; what is left out is forgotten. Every job is reckoned by it from then on. */
export async function changeRates(
  rates: z.output<typeof ratesFacts>,
): Promise<void> {
  const db = await database()
  const values = {
    hourlyMinor: rates.hourlyMinor ?? null,
    yearlyOverheadMinor: rates.yearlyOverheadMinor ?? null,
    productiveHours: rates.productiveHours ?? null,
    feePercent: rates.feePercent ?? null,
    feeFixedMinor: rates.feeFixedMinor ?? null,
    setUpMinutes: rates.setUpMinutes ?? null,
    cleanUpMinutes: rates.cleanUpMinutes ?? null,
  }
  await db.$transaction((transaction) =>
    transaction.rates.upsert({
      where: workshopRow,
      create: { ...workshopRow, ...values },
      update: values,
      select: { id: true },
    }),
  )
}
