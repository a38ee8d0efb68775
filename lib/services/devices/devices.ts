import 'server-only'
import { createHash, randomBytes } from 'node:crypto'
import type { Instant } from '#core/units'
import { instant } from '#core/units'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'

/**
 * How a device came in: by a pairing code, by the passphrase, as a program with a token of its own, or as a calendar whose
 * address holds the token, and which reads the bench's calendar and nothing else.
 */
export type Way = 'paired' | 'passphrase' | 'program' | 'calendar'

/** Something that is let in. */
export type Device = {
  readonly id: string
  readonly name: string
  readonly way: Way
  readonly addedAt: Instant
  readonly seenAt: Instant
}

const ways: readonly Way[] = ['paired', 'passphrase', 'program', 'calendar']

const day = 86_400_000
/** How long each way stands while nobody comes by it. */
const idleDays: Readonly<Record<Way, number>> = {
  paired: 90,
  passphrase: 14,
  program: 365,
  calendar: 365,
}
/** To the minute is near enough, and saves a write a request. */
const seenMilliseconds = 600_000

const columns = {
  id: true,
  name: true,
  way: true,
  addedAt: true,
  seenAt: true,
} as const

/** Lets a device in from now on. Its token is given back this once; only its hash is kept. */
export async function addDevice(
  transaction: Transaction,
  name: string,
  way: Way,
  now: Instant,
): Promise<string> {
  const token = randomBytes(32).toString('base64url')
  await transaction.device.create({
    data: {
      id: newId(),
      name: name.slice(0, 80),
      way,
      tokenHash: hashOf(token),
      addedAt: toDate(now),
      seenAt: toDate(now),
      endsAt: endOf(way, now),
    },
    select: { id: true },
  })
  return token
}

/** Lets in a browser whose user gave the passphrase, a program or a calendar, and gives its token. */
export async function addSession(
  name: string,
  way: Exclude<Way, 'paired'>,
  now: Instant,
): Promise<string> {
  const db = await database()
  return db.$transaction((transaction) =>
    addDevice(transaction, name, way, now),
  )
}

/** The device that holds this token, or undefined: it is unknown, was revoked, or stayed away too long. */
export async function findDevice(
  token: string,
  now: Instant,
): Promise<Device | undefined> {
  const db = await database()
  const row = await db.device.findUnique({
    where: { tokenHash: hashOf(token) },
    select: { ...columns, endsAt: true },
  })
  if (row === null || toInstant(row.endsAt) <= now) return undefined
  const device = toDevice(row)
  if (now - device.seenAt > seenMilliseconds) {
    await db.$transaction((transaction) =>
      transaction.device.updateMany({
        where: { id: device.id },
        data: { seenAt: toDate(now), endsAt: endOf(device.way, now) },
      }),
    )
  }
  return device
}

/** All that is let in, the one seen last first. */
export async function readDevices(now: Instant): Promise<readonly Device[]> {
  const db = await database()
  const rows = await db.device.findMany({
    where: { endsAt: { gt: toDate(now) } },
    orderBy: { seenAt: 'desc' },
    select: columns,
  })
  return rows.map(toDevice)
}

/** Lets a device in no more, from this moment. One that is not there needs nothing. */
export async function revokeDevice(id: string): Promise<void> {
  const db = await database()
  await db.$transaction((transaction) =>
    transaction.device.deleteMany({ where: { id } }),
  )
}

function endOf(way: Way, now: Instant): Date {
  return toDate(instant(now + idleDays[way] * day))
}

/** A token is 256 bits of chance, so a plain hash cannot be guessed back. */
function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}

function toDevice(row: {
  readonly id: string
  readonly name: string
  readonly way: string
  readonly addedAt: Date
  readonly seenAt: Date
}): Device {
  return {
    id: row.id,
    name: row.name,
    way: ways.find((way) => way === row.way) ?? 'passphrase',
    addedAt: toInstant(row.addedAt),
    seenAt: toInstant(row.seenAt),
  }
}
