import { z } from 'zod'

const schema = z.object({
  hosts: z.array(z.string()).min(1),
  fingerprint: z.string(),
})

/** How this workshop is reached over the local network. */
export type Lan = {
  /** Hosts with their ports, as a browser sends them; the first is the one to type. */
  readonly hosts: readonly string[]
  /** SHA-256 of the authority's certificate, in pairs of hexadecimal digits. */
  readonly fingerprint: string
}

const variable = 'COATBOOK_LAN'

/** The environment that tells a server how it is reached. */
export function lanEnvironment(lan: Lan): Readonly<Record<string, string>> {
  return { [variable]: JSON.stringify(lan) }
}

/**
 * How this workshop is reached over the local network; undefined where only this machine reaches it.
 *
 * @throws Error when the environment says something else there
 */
export function readLan(): Lan | undefined {
  const text = process.env[variable]
  return text === undefined ? undefined : schema.parse(JSON.parse(text))
}
