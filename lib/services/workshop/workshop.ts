import 'server-only'
import type { WorkshopSettings } from '#core/journal/journal'
import type { Instant } from '#core/units'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { readEnvironment } from '#services/settings/environment'

/** The one row of settings. */
export const workshopRow = { id: 'workshop' } as const
const columns = { name: true, zone: true, currency: true, units: true } as const

/** The workshop's settings: what was set, else the environment's zone and plain defaults. */
export async function readWorkshop(): Promise<WorkshopSettings> {
  const db = await database()
  const row = await db.workshop.findUnique({
    where: workshopRow,
    select: columns,
  })
  if (row === null) {
    return {
      name: 'My workshop',
      zone: readEnvironment().zone,
      currency: 'GBP',
      units: 'metric',
    }
  }
  return { ...row, units: row.units === 'us' ? 'us' : 'metric' }
}

/**
 * Writes down the settings of a new journal, so that its zone does not follow the machine from then on. Changes nothing
 * where there are settings already.
 */
export async function keepFirstSettings(now: Instant): Promise<void> {
  const db = await database()
  const settings = await readWorkshop()
  await db.$transaction((transaction) =>
    transaction.workshop.upsert({
      where: workshopRow,
      create: { ...workshopRow, ...settings, createdAt: toDate(now) },
      update: {},
      select: { id: true },
    }),
  )
}
