import 'server-only'
import {
  type ScryptOptions,
  randomBytes,
  scrypt,
  timingSafeEqual,
} from 'node:crypto'
import type { Result } from '#core/result'
import { ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { toDate } from '#services/database/instants'
import { database, readInPlainSql } from '#services/database/open-database'

const row = { id: 'passphrase' } as const
const shortest = 12
const longest = 200

/**
 * The cost of one guess: 128 MiB and some tenths of a second.
 * Source: OWASP Password Storage Cheat Sheet, scrypt with N = 2^17, r = 8, p = 1.
 */
const cost = { log2N: 17, r: 8, p: 1 } as const

/** Whether this workshop has a passphrase. Without one, whoever sits at the desk computer is let in. */
export async function hasPassphrase(): Promise<boolean> {
  // In plain SQL: every request waits for it.
  const found = await readInPlainSql((sql) =>
    sql.rows('SELECT 1 FROM "Passphrase" WHERE "id" = ?', row.id),
  )
  return found.length > 0
}

/** Whether this is the passphrase; false where none was set. Takes about as long either way. */
export async function isPassphrase(typed: string): Promise<boolean> {
  const kept = (await keptHash()) ?? unusableHash
  return (await matches(typed, kept)) && kept !== unusableHash
}

/**
 * Sets the passphrase, or changes it, and takes back every way in that the old one gave.
 *
 * @param current the one that there is; anything where there is none
 */
export async function changePassphrase(
  current: string,
  wanted: string,
  now: Instant,
): Promise<Result<null>> {
  const length = Array.from(wanted).length
  if (length < shortest || length > longest) {
    return refused({
      kind: 'invalid',
      field: 'passphrase',
      detail: `A passphrase has ${shortest} to ${longest} characters. Four words that have nothing to do with each other are easy to keep.`,
    })
  }
  if ((await hasPassphrase()) && !(await isPassphrase(current))) {
    return refused({
      kind: 'invalid',
      field: 'current',
      detail: 'That is not the passphrase that is set now.',
    })
  }
  const hash = await hashOf(wanted, randomBytes(16), cost)
  const db = await database()
  await db.$transaction(async (transaction) => {
    const values = { hash, changedAt: toDate(now) }
    await transaction.passphrase.upsert({
      where: row,
      create: { ...row, ...values },
      update: values,
      select: { id: true },
    })
    await transaction.device.deleteMany({ where: { way: 'passphrase' } })
  })
  return ok(null)
}

/** Takes the passphrase away, and every way in that it gave: for one that was forgotten. */
export async function forgetPassphrase(): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.passphrase.deleteMany({})
    await transaction.device.deleteMany({ where: { way: 'passphrase' } })
  })
}

async function keptHash(): Promise<string | undefined> {
  const db = await database()
  const found = await db.passphrase.findUnique({
    where: row,
    select: { hash: true },
  })
  return found?.hash
}

type Cost = { readonly log2N: number; readonly r: number; readonly p: number }

/** As it is kept: the name, the cost, the salt and the key, so that the cost can be raised later. */
async function hashOf(
  passphrase: string,
  salt: Buffer,
  { log2N, r, p }: Cost,
): Promise<string> {
  const key = await inTurn(() => derive(passphrase, salt, { log2N, r, p }))
  return [
    'scrypt',
    log2N,
    r,
    p,
    salt.toString('base64url'),
    key.toString('base64url'),
  ].join('$')
}

/** No passphrase gives this: it stands in where none is set, so that a guess costs the same. */
const unusableHash = `scrypt$${cost.log2N}$${cost.r}$${cost.p}$${'A'.repeat(22)}$${'A'.repeat(43)}`

async function matches(passphrase: string, kept: string): Promise<boolean> {
  const [, log2N, r, p, salt = ''] = kept.split('$')
  const again = await hashOf(passphrase, Buffer.from(salt, 'base64url'), {
    log2N: Number(log2N),
    r: Number(r),
    p: Number(p),
  })
  const [one, other] = [Buffer.from(again), Buffer.from(kept)]
  return one.byteLength === other.byteLength && timingSafeEqual(one, other)
}

function derive(
  passphrase: string,
  salt: Buffer,
  { log2N, r, p }: Cost,
): Promise<Buffer> {
  const options: ScryptOptions = {
    N: 2 ** log2N,
    r,
    p,
    // Twice what it takes: 128 * N * r bytes.
    maxmem: 256 * 2 ** log2N * r,
  }
  return new Promise((resolve, reject) => {
    // The same passphrase can be typed in two forms of Unicode.
    scrypt(passphrase.normalize('NFKC'), salt, 32, options, (error, key) => {
      if (error === null) resolve(key)
      else reject(error)
    })
  })
}

let last: Promise<unknown> = Promise.resolve()

/** One at a time: each takes 128 MiB, and a crowd of guesses must not take the machine. */
function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const mine = last.then(work, work)
  last = mine.catch(() => undefined)
  return mine
}
