import { type Server, connect, createServer } from 'node:net'

export const ipv4Loopback = '127.0.0.1'
const ipv6Loopback = '::1'

/** Whether something listens on this machine's port already. */
export async function isPortTaken(port: number): Promise<boolean> {
  for (const host of [ipv4Loopback, ipv6Loopback]) {
    const code = await listenError(port, host)
    if (code === 'EADDRINUSE') return true
    if (code === 'EACCES')
      throw new Error(
        `Port ${port} is not open to you. Set PORT to one above 1023.`,
      )
  }
  return false
}

/** A port of this machine that nothing listens on. */
export async function freePort(): Promise<number> {
  const server = createServer()
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(0, ipv4Loopback, resolve)
  })
  const address = server.address()
  await new Promise((resolve) => server.close(resolve))
  if (address === null || typeof address === 'string') {
    throw new Error('no free port was given')
  }
  return address.port
}

/**
 * Hands on what reaches the port by IPv6 to the server on IPv4: `localhost` means either, and a server listens on one.
 * A machine without IPv6 goes without.
 */
export async function forwardIpv6(port: number): Promise<Server | undefined> {
  const server = createServer((incoming) => {
    const outgoing = connect(port, ipv4Loopback)
    incoming.pipe(outgoing).pipe(incoming)
    incoming.on('error', () => outgoing.destroy())
    outgoing.on('error', () => incoming.destroy())
  })
  const listens = await new Promise<boolean>((resolve) => {
    server.once('error', () => {
      resolve(false)
    })
    server.listen({ port, host: ipv6Loopback, ipv6Only: true }, () => {
      resolve(true)
    })
  })
  return listens ? server : undefined
}

function listenError(port: number, host: string): Promise<string | undefined> {
  const server = createServer()
  return new Promise((resolve) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      resolve(error.code)
    })
    server.listen({ port, host }, () => {
      server.close(() => {
        resolve(undefined)
      })
    })
  })
}
