import { now } from '#services/clock'
import { noteAddress } from '#services/devices/former-address'
import { lanEnvironment } from '#services/devices/lan'
import { localAddresses } from '#services/devices/local-addresses'
import { openNetworkDoor } from '#services/devices/network-door'
import {
  type Authority,
  makeServerCertificate,
  openAuthority,
} from '#services/devices/workshop-authority'
import { dataFolder } from '#services/settings/data-folder'
import { buildIfChanged } from './build-if-changed'
import { prepare } from './prepare'
import { serve } from './serve'

const usualPort = 443

const root = process.cwd()
const ready = await prepare(root)
const names = localAddresses()
// Before a minute goes into building what no phone could reach.
const authority = ready && (await readyAuthority(ready.dataFolder))
if (ready === undefined || authority === undefined) {
  process.exitCode = 1
} else if (!(await buildIfChanged(root))) {
  console.error('Coatbook could not be built. See above why.')
  process.exitCode = 1
} else {
  const certificate = await makeServerCertificate(authority, names, now())
  // Browsers leave the usual port of HTTPS out of the host that they name.
  const hosts = names.map((name) =>
    ready.lanPort === usualPort ? name : `${name}:${ready.lanPort}`,
  )
  const { fingerprint } = authority
  process.exitCode = await serve('start', root, ready.port, {
    environment: lanEnvironment({ hosts, fingerprint }),
    openMore: async () => {
      const door = await openNetworkDoor({
        certificate,
        authority: authority.certificate,
        hosts,
        port: ready.lanPort,
        innerPort: ready.port,
      })
      const former = await noteAddress(
        dataFolder(ready.dataFolder).authority,
        hosts,
      )
      if (former !== undefined) {
        console.log(
          `It was at https://${former} before, and phones that were paired there know it by that address alone. Have your router give this computer that address again; else pair them anew, and save there what still waits on them.`,
        )
      }
      console.log(
        `Paired phones reach it at https://${hosts[0] ?? ''}. Pair one at http://localhost:${ready.port}/workshop#devices.`,
      )
      return door
    },
  })
}

/** The workshop's certificate authority, or undefined when no phone would take what it signs, which has been said. */
async function readyAuthority(data: string): Promise<Authority | undefined> {
  try {
    return await openAuthority(dataFolder(data).authority, now())
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error))
    return undefined
  }
}
