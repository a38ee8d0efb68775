import { type Server, createServer, request } from 'node:http'
import { connect } from 'node:net'
import { setTimeout as wait } from 'node:timers/promises'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { longestRequestMilliseconds } from '#services/devices/door'
import { answerFirst } from '../../app/api/_http/answer-first'
import { freePort } from '../../lib/commands/loopback'

answerFirst([], () => undefined)

/** The limits that the framework leaves its server with, in miniature: Node's are five minutes and one minute. */
const small = {
  requestTimeout: 400,
  headersTimeout: 300,
  connectionsCheckingInterval: 50,
}

let server: Server
let port = 0

beforeEach(async () => {
  server = createServer(small, (incoming, outgoing) => {
    let bytes = 0
    incoming.on('data', (chunk: Buffer) => {
      bytes += chunk.byteLength
    })
    incoming.on('end', () => {
      outgoing.end(String(bytes))
    })
    // Cut off by the server: it has answered for itself.
    incoming.on('error', () => undefined)
  })
  port = await freePort()
  await new Promise<void>((resolve) => {
    server.listen(port, '127.0.0.1', resolve)
  })
})
afterEach(() => {
  server.close()
  server.closeAllConnections()
})

/** Sends so many bytes, one each tenth of a second, as a phone on a weak radio link does. */
async function sendSlowly(count: number): Promise<readonly [number, string]> {
  const asked = request({ host: '127.0.0.1', port, method: 'POST' })
  const answer = new Promise<readonly [number, string]>((resolve, reject) => {
    asked.on('error', reject)
    asked.on('response', (response) => {
      let text = ''
      response.on('data', (chunk: Buffer) => {
        text += chunk.toString()
      })
      response.on('end', () => {
        resolve([response.statusCode ?? 0, text])
      })
    })
  })
  for (let sent = 0; sent < count && !asked.destroyed; sent += 1) {
    asked.write('x')
    await wait(100)
  }
  asked.end()
  return answer
}

test('a body that comes for longer than the framework would wait arrives whole', async () => {
  expect(await sendSlowly(12)).toEqual([200, '12'])
})

test('the server waits for a body as long as the door in front of it, and no longer', async () => {
  await sendSlowly(1)
  expect(server.requestTimeout).toBe(longestRequestMilliseconds)
})

test('who does not come to the end of the headers is cut off as before', async () => {
  await sendSlowly(1)
  expect(server.headersTimeout).toBe(small.headersTimeout)
  const said = await new Promise<string>((resolve, reject) => {
    let text = ''
    const socket = connect(port, '127.0.0.1')
    socket.on('data', (chunk: Buffer) => {
      text += chunk.toString()
    })
    socket.on('close', () => {
      resolve(text)
    })
    socket.on('error', reject)
    socket.write('POST / HTTP/1.1\r\nHost: localhost\r\n')
  })
  // Source: RFC 9110 section 15.5.9, Request Timeout.
  expect(said).toMatch(/^HTTP\/1\.1 408 /)
})
