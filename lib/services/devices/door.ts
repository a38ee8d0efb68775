import { deskAddress } from '#services/devices/attempt-limit'

/** By which way a request comes: from the desk computer itself, or over the local network through `npm run start:lan`. */
export type Door = 'desk' | 'network'

/**
 * The header by which the door on the network marks all that it lets pass, whatever the sender wrote there. What comes
 * without it came to the port that only this machine can reach.
 */
export const doorHeader = 'x-coatbook-door'

/** The header in which that door writes the address of the sender. */
export const peerHeader = 'x-coatbook-peer'

/**
 * How long a request may take to arrive, in milliseconds: long enough for a large photo over a weak radio link. It holds
 * for the door and for the server behind it alike, as a body flows through both at once and the shorter limit would win.
 */
export const longestRequestMilliseconds = 15 * 60_000

/** The cookie that holds a device's token. `__Host-` ties it to this host and to HTTPS, which the desk has not. */
export const deviceCookie: Readonly<Record<Door, string>> = {
  desk: 'coatbook-device',
  network: '__Host-coatbook-device',
}

/** What is read of a request to judge it. */
type Headers = { readonly get: (name: string) => string | null }

export function doorOf(headers: Headers): Door {
  return headers.get(doorHeader) === null ? 'desk' : 'network'
}

/** Whose attempts are counted together. */
export function peerOf(headers: Headers): string {
  return doorOf(headers) === 'desk'
    ? deskAddress
    : (headers.get(peerHeader) ?? 'unknown')
}
