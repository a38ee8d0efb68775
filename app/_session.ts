import { headers } from 'next/headers'
import { isLoopbackHost } from '#services/devices/loopback-host'

/**
 * Lets only this machine go on. Every action asks this first: a name of another site can be made to resolve to this
 * machine, and then only the Host header tells.
 *
 * @throws Error for any other host
 */
export async function requireLocalRequest(): Promise<void> {
  const host = (await headers()).get('host')
  if (host === null || !isLoopbackHost(host)) {
    throw new Error('This workshop answers only on the machine it runs on.')
  }
}
