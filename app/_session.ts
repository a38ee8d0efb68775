import { cookies, headers } from 'next/headers'
import { forbidden, redirect } from 'next/navigation'
import { cache } from 'react'
import { now } from '#services/clock'
import { deviceCookie, doorOf, peerOf } from '#services/devices/door'
import type { Device } from '#services/devices/devices'
import {
  type Standing,
  deviceOf,
  foreignness,
  standingOf,
} from '#services/devices/standing'

/** What the request of this page or action says; of its cookies also those that an action has just set. */
async function asked(): Promise<Pick<Headers, 'get'>> {
  const [all, kept] = await Promise.all([headers(), cookies()])
  return {
    get: (name) => (name === 'cookie' ? kept.toString() : all.get(name)),
  }
}

/** How the request of this page or action stands; asked once for all parts of a page. */
const standing = cache(async (): Promise<Standing> =>
  standingOf(await asked(), now()),
)

/** Whether a request is let in: for what every page shows, also one that turns a stranger away. */
export async function isLocalRequest(): Promise<boolean> {
  return (await standing()) === 'welcome'
}

/**
 * Lets only those go on who are let in: the desk computer where no passphrase is set, a paired phone, or who signed in.
 * Every page and action asks this first: a name of another site can be made to resolve to this machine, and then only the
 * Host header tells; and an action is an address like any other.
 *
 * A stranger is sent to the page for signing in; what another site is behind is answered with 403.
 *
 * @param ids what an action was bound to: whoever calls it can send anything in their place
 * @throws Error for an id that is no text
 */
export async function requireLocalRequest(
  ...ids: readonly unknown[]
): Promise<void> {
  const found = await standing()
  if (found === 'unknown') redirect('/sign-in')
  if (found !== 'welcome') forbidden()
  if (!ids.every((id) => typeof id === 'string')) {
    throw new Error('An id that is no text was sent to an action.')
  }
}

/** Lets in whoever sits at the desk computer itself, and nobody over the network: what decides who else is let in. */
export async function requireDesk(): Promise<void> {
  await requireLocalRequest()
  if (!(await isAtDesk())) forbidden()
}

/** Whether the request comes from the desk computer itself. */
export async function isAtDesk(): Promise<boolean> {
  return doorOf(await headers()) === 'desk'
}

/** The device that asks, where it came in by a token. */
export async function thisDevice(): Promise<Device | undefined> {
  return deviceOf(await asked(), now())
}

/** Lets everyone go on but another site: for signing in and for pairing. Gives the address whose attempts are counted. */
export async function requireOwnSite(): Promise<string> {
  const all = await headers()
  if (foreignness(all) !== undefined) forbidden()
  return peerOf(all)
}

const longestSeconds = 400 * 86_400

/** Gives the browser that asks the token of its device. How long it is good for is decided here, not by the cookie. */
export async function keepDeviceToken(token: string): Promise<void> {
  await setDeviceCookie(token, longestSeconds)
}

/** Takes the token from the browser that asks. */
export async function dropDeviceToken(): Promise<void> {
  await setDeviceCookie('', 0)
}

async function setDeviceCookie(
  token: string,
  maxAgeSeconds: number,
): Promise<void> {
  const door = doorOf(await headers())
  ;(await cookies()).set(deviceCookie[door], token, {
    httpOnly: true,
    sameSite: 'lax',
    secure: door === 'network',
    path: '/',
    maxAge: maxAgeSeconds,
  })
}
