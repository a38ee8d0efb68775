import 'server-only'
import type { AirReading } from '#core/air/reading'
import { type Instant, addMinutes, instant, minutesPerDay } from '#core/units'
import type { NewAirReading } from '#services/air/schema'
import { toDate, toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'

/** Air is read this long before a job's first moment, so that its first reading is no guess. */
export const airDaysBefore = 2
/** And this long after its last, while a finish cures. */
export const airDaysAfter = 45

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

/**
 * Keeps readings; one for a moment that has one already takes its place. The jobs that are judged by them are judged
 * anew.
 */
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
  if (rows.length === 0) return { kept: 0 }
  await db.$transaction(async (transaction) => {
    for (let start = 0; start < rows.length; start += rowsPerStatement) {
      const some = rows.slice(start, start + rowsPerStatement)
      await transaction.airReading.deleteMany({
        where: { at: { in: some.map((row) => row.at) } },
      })
      await transaction.airReading.createMany({ data: some })
    }
    await transaction.job.updateMany({
      where: jobsThatReach(rows.map((row) => row.at.getTime())),
      data: { revision: { increment: 1 } },
    })
  })
  return { kept: rows.length }
}

/** The jobs whose journal holds one of these moments of air: begun before it and not long done. */
function jobsThatReach(moments: readonly number[]) {
  const reach = (at: number, days: number) =>
    toDate(addMinutes(instant(at), days * minutesPerDay))
  const begun = reach(
    moments.reduce((one, other) => Math.max(one, other), -Infinity),
    airDaysBefore,
  )
  const notDone = reach(
    moments.reduce((one, other) => Math.min(one, other), Infinity),
    -airDaysAfter,
  )
  const some = (when: { lte: Date } | { gte: Date }) => ({
    OR: [
      { photos: { some: { takenAt: when } } },
      { steps: { some: { startedAt: when } } },
      { steps: { some: { finishedAt: when } } },
    ],
  })
  return { AND: [some({ lte: begun }), some({ gte: notDone })] }
}
