import 'server-only'
import { createHash, randomInt } from 'node:crypto'
import { type Result, ok, refused } from '#core/result'
import { type Instant, instant } from '#core/units'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { addDevice } from '#services/devices/devices'

/** No letter that can be taken for a digit or for another letter. */
const letters = '23456789ABCDEFGHJKMNPQRSTUVWXYZ'
const length = 12
const lifeMinutes = 5

/** A code that pairs one phone, once, until it ends. */
export type PairingCode = { readonly code: string; readonly endsAt: Instant }

/** Makes a pairing code (59 bits); every earlier one ends, so that one at most is about. */
export async function makePairingCode(now: Instant): Promise<PairingCode> {
  const code = Array.from(
    { length },
    () => letters[randomInt(letters.length)] ?? '',
  ).join('')
  const endsAt = instant(now + lifeMinutes * 60_000)
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.pairingCode.deleteMany({})
    await transaction.pairingCode.create({
      data: { codeHash: hashOf(code), endsAt: toDate(endsAt) },
      select: { codeHash: true },
    })
  })
  return { code: code.replaceAll(/(.{4})(?=.)/g, '$1-'), endsAt }
}

/**
 * Pairs the phone that brings a code, and gives its token.
 *
 * @param code as it was shown or typed; case, spaces and dashes do not count
 * @param name what the owner calls the phone
 */
export async function pairPhone(
  code: string,
  name: string,
  now: Instant,
): Promise<Result<string>> {
  const plain = code.toUpperCase().replaceAll(/[^0-9A-Z]/g, '')
  const db = await database()
  const token = await db.$transaction(async (transaction) => {
    // Removing it is using it: of two phones with one code, one finds a row to remove.
    const { count } = await transaction.pairingCode.deleteMany({
      where: { codeHash: hashOf(plain), endsAt: { gt: toDate(now) } },
    })
    return count === 1
      ? await addDevice(transaction, name, 'paired', now)
      : undefined
  })
  if (token === undefined) {
    return refused({
      kind: 'invalid',
      field: 'code',
      detail: `This code was used or has ended: each is good for one phone and ${lifeMinutes} minutes. Make a new one on the desk computer, under Workshop.`,
    })
  }
  return ok(token)
}

function hashOf(code: string): string {
  return createHash('sha256').update(code).digest('hex')
}
