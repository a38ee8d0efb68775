import type { Instant } from '#core/units'

const windowMilliseconds = 15 * 60_000
/** Of one address, and of all on the network together, in a quarter of an hour. */
const mostOfOne = 8
const mostOfAll = 40

/** Stands for the computer that the workshop runs on, whatever its address. */
export const deskAddress = 'desk'

// Kept on the global object: pages and routes may each load a copy of this module.
const kept = globalThis as typeof globalThis & {
  coatbookAttempts?: Map<string, Instant[]>
}

/**
 * Counts an attempt to get in, before it is looked at, so that many at once are counted too.
 *
 * @param kind what is tried, such as `passphrase`
 * @param address whose attempt it is
 * @returns whether it may be looked at
 */
export function mayAttempt(
  kind: 'passphrase' | 'pairing',
  address: string,
  now: Instant,
): boolean {
  const attempts = (kept.coatbookAttempts ??= new Map<string, Instant[]>())
  const since = now - windowMilliseconds
  for (const [key, times] of attempts) {
    const recent = times.filter((at) => at > since && at <= now)
    if (recent.length === 0) attempts.delete(key)
    else attempts.set(key, recent)
  }
  const mine = `${kind} of ${address}`
  const all = `${kind} of all`
  // Strangers on the network must not be able to shut out the owner at the desk.
  const counted = address === deskAddress ? [mine] : [mine, all]
  const allowed =
    (attempts.get(mine)?.length ?? 0) < mostOfOne &&
    (address === deskAddress || (attempts.get(all)?.length ?? 0) < mostOfAll)
  if (!allowed) return false
  for (const key of counted) {
    attempts.set(key, [...(attempts.get(key) ?? []), now])
  }
  return true
}

/** Takes back the attempts of an address that got in. */
export function forgetAttempts(
  kind: 'passphrase' | 'pairing',
  address: string,
): void {
  kept.coatbookAttempts?.delete(`${kind} of ${address}`)
}
