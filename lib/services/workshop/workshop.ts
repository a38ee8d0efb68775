import 'server-only'
import type { WorkshopSettings } from '#core/journal/journal'
import type { Instant } from '#core/units'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { readEnvironment } from '#services/settings/environment'

const only = { id: 'workshop' } as const
const columns = { name: true, zone: true, currency: true, units: true } as const

/** The workshop's settings: what was set, else the environment's zone and plain defaults. */
export async function readWorkshop(): Promise<WorkshopSettings> {
  const db = await database()
  const row = await db.workshop.findUnique({ where: only, select: columns })
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

/** Keeps the workshop's settings. Times of photos already kept stay as they are. */
export async function changeWorkshop(
  settings: WorkshopSettings,
  now: Instant,
): Promise<void> {
  const db = await database()
  const values = {
    name: settings.name,
    zone: settings.zone,
    currency: settings.currency,
    units: settings.units,
  }
  await db.workshop.upsert({
    where: only,
    create: { ...only, ...values, createdAt: toDate(now) },
    update: values,
    select: { id: true },
  })
}
