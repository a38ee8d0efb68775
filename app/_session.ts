import { headers } from 'next/headers'
import { isLoopbackHost } from '#services/devices/loopback-host'

/** Whether a request comes from this machine: for what every page shows, also one that turns a stranger away. */
export async function isLocalRequest(): Promise<boolean> {
  const host = (await headers()).get('host')
  return host !== null && isLoopbackHost(host)
}

/**
 * Lets only this machine go on. Every page and action asks this first: a name of another site can be made to resolve to
 * this machine, and then only the Host header tells.
 *
 * @param ids what an action was bound to: whoever calls it can send anything in their place
 * @throws Error for any other host, and for an id that is no text
 */
export async function requireLocalRequest(
  ...ids: readonly unknown[]
): Promise<void> {
  if (!(await isLocalRequest())) {
    throw new Error('This workshop answers only on the machine it runs on.')
  }
  if (!ids.every((id) => typeof id === 'string')) {
    throw new Error('An id that is no text was sent to an action.')
  }
}
