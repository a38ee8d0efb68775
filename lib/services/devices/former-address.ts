import 'server-only'
import { readFile, writeFile } from 'node:fs/promises'
import path from 'node:path'

/**
 * Notes by which address phones reach the workshop from now on.
 *
 * @param folder of the workshop's authority
 * @param hosts names and addresses with their port, the one that phones are told first; not empty
 * @returns the address that was noted before, where the workshop is not to be had at it any more: a phone that was paired
 *   there knows the workshop by that address alone
 */
export async function noteAddress(
  folder: string,
  hosts: readonly string[],
): Promise<string | undefined> {
  const file = path.join(folder, 'address')
  // Not there before the first start.
  const noted = (await readFile(file, 'utf8').catch(() => '')).trim()
  if (hosts.includes(noted)) return undefined
  // A disk that takes no writing is told of where it matters: the workshop starts without this.
  await writeFile(file, `${hosts[0] ?? ''}\n`).catch(() => undefined)
  return noted === '' ? undefined : noted
}
