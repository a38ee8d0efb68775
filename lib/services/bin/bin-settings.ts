import 'server-only'
import { type BinRules, usualBinRules } from '#core/bin/bin-times'
import type { Instant } from '#core/units'
import type { NewBinRules } from '#services/bin/schema'
import { toDate, toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'

/** How long the bin keeps things, and when it was looked at. */
export type BinSettings = {
  readonly rules: BinRules
  /** What went in before is counted from then; absent before the first look. */
  readonly countsFrom?: Instant
  readonly lookedAt?: Instant
}

const row = { id: 'workshop' } as const

/** How long the bin keeps things, and when it was looked at. */
export async function readBinSettings(): Promise<BinSettings> {
  const db = await database()
  const found = await db.binSettings.findUnique({
    where: row,
    select: {
      keepDays: true,
      originalDays: true,
      countsFrom: true,
      lookedAt: true,
    },
  })
  if (found === null) return { rules: usualBinRules }
  const { keepDays, originalDays, countsFrom, lookedAt } = found
  return {
    rules: { ...(keepDays === null ? {} : { keepDays }), originalDays },
    ...(countsFrom === null ? {} : { countsFrom: toInstant(countsFrom) }),
    ...(lookedAt === null ? {} : { lookedAt: toInstant(lookedAt) }),
  }
}

/** Keeps how long the bin is to keep things. */
export async function changeBinRules(rules: NewBinRules): Promise<void> {
  await write({
    keepDays: rules.keepDays ?? null,
    originalDays: rules.originalDays,
  })
}

/** Writes down that the bin was looked at. */
export async function recordBinLook(
  lookedAt: Instant,
  countsFrom: Instant,
): Promise<void> {
  await write({ lookedAt: toDate(lookedAt), countsFrom: toDate(countsFrom) })
}

/** Has all that is in the bin counted anew from its next look on: a backup brings back what was removed long ago. */
export async function countBinAnew(): Promise<void> {
  const db = await database()
  await db.$transaction((transaction) =>
    transaction.binSettings.updateMany({
      data: { lookedAt: null, countsFrom: null },
    }),
  )
}

async function write(values: {
  readonly keepDays?: number | null
  readonly originalDays?: number
  readonly countsFrom?: Date
  readonly lookedAt?: Date
}): Promise<void> {
  const { keepDays = null, originalDays } = usualBinRules
  const db = await database()
  await db.$transaction((transaction) =>
    transaction.binSettings.upsert({
      where: row,
      create: { ...row, keepDays, originalDays, ...values },
      update: values,
      select: { id: true },
    }),
  )
}
