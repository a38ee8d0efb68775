import { hostname, networkInterfaces } from 'node:os'
import { isLocalName } from '#services/devices/workshop-authority'

/** Interfaces of bridges to containers and virtual machines, which no phone reaches. */
const virtual = /^(?:docker|br-|veth|virbr|vmnet|vboxnet|utun|tun|tap)/

/**
 * The names by which this machine is reached on its local network, the one to type first: its IPv4 addresses, and its own
 * name in multicast DNS. Last comes `localhost`, by which this machine itself can try the door.
 */
export function localAddresses(): readonly string[] {
  const addresses = Object.entries(networkInterfaces())
    .sort(
      ([one], [other]) =>
        Number(virtual.test(one)) - Number(virtual.test(other)),
    )
    .flatMap(([, found]) => found ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal)
    .map((one) => one.address)
    .filter(isLocalName)
  const [label = ''] = hostname().toLowerCase().split('.')
  const named = /^[a-z0-9-]+$/.test(label) ? [`${label}.local`] : []
  return [...addresses, ...named, 'localhost']
}
