import 'server-only'
import type { Instant } from '#core/units'
import { findDevice, type Device } from '#services/devices/devices'
import { deviceCookie, doorOf } from '#services/devices/door'
import { readLan } from '#services/devices/lan'
import {
  isLoopbackAddress,
  isLoopbackHost,
} from '#services/devices/loopback-host'
import { hasPassphrase } from '#services/devices/passphrase'

/**
 * What a request may be answered with. `welcome`: everything; `unknown`: only a way to sign in; `foreign-host`: it was
 * sent to a name that is not ours, so a page of another site is behind it; `foreign-site`: it says so itself;
 * `through-proxy`: somebody else's program handed it on, so it may come from anywhere.
 */
export type Standing =
  'welcome' | 'unknown' | 'foreign-host' | 'foreign-site' | 'through-proxy'

type Headers = { readonly get: (name: string) => string | null }

/**
 * Why a request is not even listened to, or undefined. Needs no journal: it is judged by its host and origin alone.
 *
 * A request without an `Origin` and from another site is a link that was followed, which may open a page; it brings
 * nothing with it.
 */
export function foreignness(
  headers: Headers,
): 'foreign-host' | 'foreign-site' | 'through-proxy' | undefined {
  if (wasHandedOn(headers)) return 'through-proxy'
  const host = askedHost(headers)
  if (host !== null && !isOurs(host, doorOf(headers) === 'network')) {
    return 'foreign-host'
  }
  const origin = headers.get('origin')
  const site = headers.get('sec-fetch-site')
  if (origin === null) {
    const isForeign = site === 'cross-site' || site === 'same-site'
    return isForeign && headers.get('content-type') !== null
      ? 'foreign-site'
      : undefined
  }
  const from = URL.canParse(origin) ? new URL(origin).host : ''
  // One that is told is held against the host even where browser and page are of one mind: both may be somewhere else.
  if (from !== '') {
    return isSameServer(from, host) ? undefined : 'foreign-site'
  }
  // Browsers write `null` for a form of our own page as well, where it sends no referrer; then only this tells.
  return site === 'same-origin' ? undefined : 'foreign-site'
}

/**
 * The host that a browser asked for. Where an action of a phone leads on to a page, the framework asks itself for that
 * page, by the name that it listens at and with all that the phone said: the host that was asked stands beside it then.
 * What comes by the door has no such name of its own, and cannot write there.
 */
function askedHost(headers: Headers): string | null {
  const host = headers.get('host')
  const asked = headers.get('x-forwarded-host')
  const isInside =
    doorOf(headers) === 'network' &&
    host !== null &&
    isLoopbackHost(host) &&
    !isOurs(host, true)
  return isInside && asked !== null ? asked : host
}

/**
 * Whether a proxy that is not ours handed a request on to the port that only this machine can reach. It may have written
 * a Host of this machine over the one that it got; but a browser of this machine never sends what proxies add. The
 * framework adds some of it too, with the address and the host that it sees itself; and where an action leads on to a
 * page, it asks itself for that page, by the name that it listens at and with all that the browser said.
 */
function wasHandedOn(headers: Headers): boolean {
  if (doorOf(headers) === 'network') return false
  if (addedByProxies.some((name) => headers.get(name) !== null)) return true
  // The framework says `http` of what comes to the desk, which speaks nothing else.
  const scheme = headers.get('x-forwarded-proto')
  if (scheme !== null && scheme !== 'http') return true
  const sender = headers.get('x-forwarded-for')
  const host = headers.get('x-forwarded-host')
  return (
    (sender !== null && !isLoopbackAddress(sender)) ||
    (host !== null && !isSameServer(host, headers.get('host')))
  )
}

/**
 * What a browser never sends, and what proxies and tunnels say of whom they got a request from. Source: RFC 7239
 * (Forwarded), RFC 9110 section 7.6.3 (Via), RFC 8586 (CDN-Loop); the others are common practice.
 */
const addedByProxies = [
  'forwarded',
  'via',
  'cdn-loop',
  'x-real-ip',
  'x-client-ip',
  'x-cluster-client-ip',
  'x-forwarded-server',
  'x-original-forwarded-for',
  'x-original-host',
  'true-client-ip',
  'cf-connecting-ip',
]

/** Whether two hosts are one server: this machine has several names, and its port tells which of its servers is meant. */
function isSameServer(one: string, other: string | null): boolean {
  if (one === other) return true
  if (other === null || !isLoopbackHost(one) || !isLoopbackHost(other)) {
    return false
  }
  const port = (host: string) => /:\d+$/.exec(host)?.[0]
  return port(one) === port(other)
}

/** How a request stands: the one judgement that every page, action and route is answered by. */
export async function standingOf(
  headers: Headers,
  now: Instant,
): Promise<Standing> {
  const foreign = foreignness(headers)
  if (foreign !== undefined) return foreign
  if ((await deviceOf(headers, now)) !== undefined) return 'welcome'
  return doorOf(headers) === 'desk' && !(await hasPassphrase())
    ? 'welcome'
    : 'unknown'
}

/** The device that sends a request, where it shows a token that is good. A calendar is let in at its own address only. */
export async function deviceOf(
  headers: Headers,
  now: Instant,
): Promise<Device | undefined> {
  const token =
    bearerOf(headers.get('authorization')) ??
    cookieOf(headers.get('cookie'), deviceCookie[doorOf(headers)])
  if (token === undefined) return undefined
  const device = await findDevice(token, now)
  return device?.way === 'calendar' ? undefined : device
}

/** Whether this is the secret of a calendar's address that is still good: it opens the calendar, and no other address. */
export async function isCalendarFeed(
  token: string,
  now: Instant,
): Promise<boolean> {
  return (await findDevice(token, now))?.way === 'calendar'
}

function isOurs(host: string, overNetwork: boolean): boolean {
  if (!overNetwork) return isLoopbackHost(host)
  return readLan()?.hosts.includes(host.toLowerCase()) ?? false
}

/** Source: RFC 6750 section 2.1. */
function bearerOf(header: string | null): string | undefined {
  return /^Bearer +([\w~+/.-]+=*)$/i.exec(header ?? '')?.[1]
}

function cookieOf(header: string | null, name: string): string | undefined {
  for (const pair of (header ?? '').split(';')) {
    const [key = '', value] = pair.trim().split('=')
    if (key === name) return value
  }
  return undefined
}
