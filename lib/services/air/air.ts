import 'server-only'
import type { AirReading } from '#core/air/reading'
import type { Instant } from '#core/units'
import type { NewAirReading } from '#services/air/schema'
import { toDate, toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'

/** How many rows go into one statement; SQLite takes 32,766 values at most. */
const rowsPerStatement = 5000

/** The readings from one moment to another, both included, in order of time. */
export async function readAir(
  from: Instant,
  to: Instant,
): Promise<readonly AirReading[]> {
  const db = await database()
  const rows = await db.airReading.findMany({
    where: { at: { gte: toDate(from), lte: toDate(to) } },
    orderBy: { at: 'asc' },
    select: { at: true, celsius: true, humidity: true },
  })
  return rows.map((row) => ({ ...row, at: toInstant(row.at) }))
}

/** The newest readings, the latest first. */
export async function readLatestAir(
  count: number,
): Promise<readonly AirReading[]> {
  const db = await database()
  const rows = await db.airReading.findMany({
    orderBy: { at: 'desc' },
    take: count,
    select: { at: true, celsius: true, humidity: true },
  })
  return rows.map((row) => ({ ...row, at: toInstant(row.at) }))
}

/** Keeps readings; one for a moment that has one already takes its place. All jobs are judged anew. */
export async function addAir(
  readings: readonly NewAirReading[],
): Promise<{ readonly kept: number }> {
  const db = await database()
  const byMoment = new Map(readings.map((reading) => [reading.at, reading]))
  const rows = [...byMoment.values()].map((reading) => ({
    at: toDate(reading.at),
    celsius: reading.celsius,
    humidity: reading.humidity,
  }))
  await db.$transaction(async (transaction) => {
    for (let start = 0; start < rows.length; start += rowsPerStatement) {
      const some = rows.slice(start, start + rowsPerStatement)
      await transaction.airReading.deleteMany({
        where: { at: { in: some.map((row) => row.at) } },
      })
      await transaction.airReading.createMany({ data: some })
    }
    await transaction.job.updateMany({
      data: { revision: { increment: 1 } },
    })
  })
  return { kept: rows.length }
}
