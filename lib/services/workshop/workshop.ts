import 'server-only'
import { z } from 'zod'
import type { WorkshopSettings } from '#core/journal/journal'
import type { Instant } from '#core/units'
import { toDate } from '#services/database/instants'
import type { PlainSql } from '#services/database/one-connection'
import { database, readInPlainSql } from '#services/database/open-database'
import { readEnvironment } from '#services/settings/environment'

/** The one row of settings. */
export const workshopRow = { id: 'workshop' } as const
const rows = z.array(
  z.object({
    name: z.string(),
    zone: z.string(),
    currency: z.string(),
    units: z.string(),
  }),
)

/** The workshop's settings: what was set, else the environment's zone and plain defaults. */
export async function readWorkshop(): Promise<WorkshopSettings> {
  return readInPlainSql(readWorkshopInPlainSql)
}

/** The same, among other things that are read. */
export function readWorkshopInPlainSql(sql: PlainSql): WorkshopSettings {
  const [row] = rows.parse(
    sql.rows(
      'SELECT "name", "zone", "currency", "units" FROM "Workshop" WHERE "id" = ?',
      workshopRow.id,
    ),
  )
  if (row === undefined) {
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
