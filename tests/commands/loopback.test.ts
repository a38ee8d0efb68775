import { createServer } from 'node:http'
import { describe, expect, test } from 'vitest'
import { forwardIpv6, freePort, isPortTaken } from '../../lib/commands/loopback'

/** A server on IPv4 that answers with what it was sent; gives its port and how to stop it. */
async function echo() {
  const server = createServer((request, response) => {
    request.pipe(response)
  })
  const port = await freePort()
  await new Promise<void>((resolve) => {
    server.listen(port, '127.0.0.1', resolve)
  })
  return { port, stop: () => new Promise((resolve) => server.close(resolve)) }
}

describe('a port of this machine', () => {
  test('that is free is free, and one that is used is taken', async () => {
    expect(await isPortTaken(await freePort())).toBe(false)
    const { port, stop } = await echo()
    expect(await isPortTaken(port)).toBe(true)
    await stop()
  })

  test('answers by IPv6 as it does by IPv4, whole', async () => {
    const { port, stop } = await echo()
    const forward = await forwardIpv6(port)
    // A machine without IPv6 has nothing to forward.
    if (forward !== undefined) {
      const body = 'dust '.repeat(200_000)
      const answer = await fetch(`http://[::1]:${port}/`, {
        method: 'POST',
        body,
      })
      expect(await answer.text()).toBe(body)
      forward.close()
    }
    await stop()
  })
})
