import 'server-only'
import type { WorkshopSettings } from '#core/journal/journal'
import type { Instant } from '#core/units'
import {
  cameraClock,
  evidenceColumns,
  workOutAgain,
} from '#services/cameras/photo-times'
import { toDate } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { readWorkshop, workshopRow } from '#services/workshop/workshop'

/** Every photo without an offset is written anew when the zone changes, and there may be tens of thousands. */
const patience = { timeout: 300_000 }

/**
 * Keeps the workshop's settings. With another time zone, the times of all photos that were read in the old one are worked
 * out again, in the same transaction: two zones in one job would make every wait between them wrong.
 */
export async function changeWorkshop(
  settings: WorkshopSettings,
  now: Instant,
): Promise<void> {
  const before = await readWorkshop()
  const db = await database()
  await db.$transaction(async (transaction) => {
    const values = {
      name: settings.name,
      zone: settings.zone,
      currency: settings.currency,
      units: settings.units,
    }
    await transaction.workshop.upsert({
      where: workshopRow,
      create: { ...workshopRow, ...values, createdAt: toDate(now) },
      update: values,
      select: { id: true },
    })
    if (settings.zone !== before.zone) {
      await readInZone(transaction, settings.zone)
    }
  }, patience)
}

async function readInZone(
  transaction: Transaction,
  zone: string,
): Promise<void> {
  const photos = await transaction.photo.findMany({
    where: { takenBasis: 'zone' },
    select: {
      ...evidenceColumns,
      camera: {
        select: { clockCorrectionSeconds: true, clockUncertaintySeconds: true },
      },
    },
  })
  for (const { camera, ...photo } of photos) {
    await workOutAgain(
      transaction,
      photo,
      zone,
      camera === null ? undefined : cameraClock(camera),
    )
  }
  for (const jobId of new Set(photos.map((photo) => photo.jobId))) {
    await touchJob(transaction, jobId)
  }
}
