import { mkdtempSync, rmSync } from 'node:fs'
import { type IncomingHttpHeaders, type Server, createServer } from 'node:http'
import { request } from 'node:https'
import { type Socket, connect } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { connect as connectSecurely } from 'node:tls'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { now } from '#services/clock'
import { openNetworkDoor } from '#services/devices/network-door'
import {
  makeServerCertificate,
  openAuthority,
} from '#services/devices/workshop-authority'
import { freePort } from '../../../lib/commands/loopback'

type Answer = {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly text: string
}

let folder = ''
let inner: Server
let authority = ''
let port = 0
let door: { readonly close: () => void }
let reached: readonly {
  readonly headers: IncomingHttpHeaders
  readonly bytes: number
}[]

beforeEach(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-door-'))
  reached = []
  inner = createServer((incoming, outgoing) => {
    let bytes = 0
    incoming.on('data', (chunk: Buffer) => {
      bytes += chunk.byteLength
    })
    incoming.on('end', () => {
      reached = [...reached, { headers: incoming.headers, bytes }]
      outgoing.end('from inside')
    })
  })
  const innerPort = await freePort()
  await new Promise<void>((resolve) => {
    inner.listen(innerPort, '127.0.0.1', resolve)
  })
  const made = await openAuthority(folder, now())
  authority = made.certificate
  port = await freePort()
  door = await openNetworkDoor({
    certificate: await makeServerCertificate(made, ['localhost'], now()),
    authority,
    hosts: [`localhost:${port}`],
    port,
    innerPort,
  })
})
afterEach(() => {
  door.close()
  inner.close()
  inner.closeAllConnections()
  rmSync(folder, { recursive: true, force: true })
})

/** Asks the door as a phone does that trusts nothing but the workshop's authority. */
function ask(
  address: string,
  headers: Readonly<Record<string, string>> = {},
  body?: Buffer,
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(
      `https://localhost:${port}${address}`,
      {
        ca: authority,
        servername: 'localhost',
        headers,
        method: body === undefined ? 'GET' : 'POST',
        agent: false,
      },
      (response) => {
        let text = ''
        response.on('data', (chunk: Buffer) => {
          text += chunk.toString()
        })
        response.on('end', () => {
          resolve({
            status: response.statusCode ?? 0,
            headers: response.headers,
            text,
          })
        })
      },
    )
    asked.on('error', reject)
    asked.end(body)
  })
}

test('marks what comes from the network, whatever the sender wrote there', async () => {
  const answer = await ask('/jobs', {
    'x-coatbook-peer': '127.0.0.1',
    'x-forwarded-host': 'localhost:3000',
    'x-forwarded-for': '127.0.0.1',
    forwarded: 'for=127.0.0.1',
    'x-middleware-subrequest': 'proxy',
    accept: 'text/html',
  })
  expect(answer).toMatchObject({ status: 200, text: 'from inside' })
  const headers = reached[0]?.headers ?? {}
  expect(headers).toMatchObject({
    'x-coatbook-door': 'network',
    'x-coatbook-peer': '127.0.0.1',
    'x-forwarded-proto': 'https',
    host: `localhost:${port}`,
    accept: 'text/html',
  })
  for (const gone of [
    'x-forwarded-host',
    'x-forwarded-for',
    'forwarded',
    'x-middleware-subrequest',
  ]) {
    expect(headers[gone]).toBeUndefined()
  }
})

test('answers to no other name, and asks nobody inside', async () => {
  for (const host of ['elsewhere.example', `127.0.0.1:${port}`, 'localhost']) {
    expect((await ask('/', { host })).status).toBe(421)
  }
  expect(reached).toEqual([])
})

test.each([
  ['GET /%ff', 400],
  ['GET /jobs/%E0%A4%A', 400],
  ['GET http://localhost:3000/api/jobs', 400],
  ['OPTIONS *', 400],
  ['TRACE /', 405],
  ['PROPFIND /', 405],
])('turns away what no browser asks: %s', async (line, status) => {
  const said = await new Promise<string>((resolve, reject) => {
    const socket = connectSecurely({
      port,
      ca: authority,
      servername: 'localhost',
    })
    let text = ''
    socket.on('data', (chunk: Buffer) => {
      text += chunk.toString()
    })
    socket.on('close', () => {
      resolve(text)
    })
    socket.on('error', reject)
    socket.write(`${line} HTTP/1.1\r\nHost: localhost:${port}\r\n\r\n`)
  })
  expect(said).toMatch(new RegExp(`^HTTP/1.1 ${status} `))
  expect(reached).toEqual([])
})

test('gives the certificate to trust, and never its key', async () => {
  const answer = await ask('/authority.crt')
  expect(answer.status).toBe(200)
  expect(answer.headers['content-type']).toBe('application/x-x509-ca-cert')
  expect(answer.text).toBe(authority)
  expect(answer.text).not.toContain('PRIVATE')
})

test('hands a large photo on whole', async () => {
  const photo = Buffer.alloc(30_000_000, 7)
  expect((await ask('/photos', {}, photo)).status).toBe(200)
  expect(reached[0]?.bytes).toBe(photo.byteLength)
})

test('says so when nobody listens inside, so that what was sent is held up and not set aside', async () => {
  inner.close()
  inner.closeAllConnections()
  const answer = await ask('/')
  expect(answer.status).toBe(503)
  expect(answer.text).toContain('does not answer')
})

test('says so when a request breaks off inside', async () => {
  inner.once('connection', (socket: Socket) => {
    socket.destroy()
  })
  const answer = await ask('/')
  expect(answer.status).toBe(502)
  expect(answer.text).toContain('does not answer')
})

test('does not open where something listens already', async () => {
  const made = await openAuthority(folder, now())
  await expect(
    openNetworkDoor({
      certificate: await makeServerCertificate(made, ['localhost'], now()),
      authority,
      hosts: [],
      port,
      innerPort: 1,
    }),
  ).rejects.toThrow(/is taken.*COATBOOK_LAN_PORT/)
})

test('one address takes at most 24 connections, and gets more once it lets some go', async () => {
  const open: Socket[] = []
  let closed = 0
  for (let count = 0; count < 40; count += 1) {
    const socket = connect(port, '127.0.0.1')
    socket.on('error', () => undefined)
    socket.on('close', () => {
      closed += 1
    })
    open.push(socket)
  }
  await expect.poll(() => closed).toBe(16)
  await expect(ask('/jobs')).rejects.toThrow()
  for (const socket of open) socket.destroy()
  await expect
    .poll(() =>
      ask('/jobs').then(
        ({ status }) => status,
        () => 0,
      ),
    )
    .toBe(200)
})
