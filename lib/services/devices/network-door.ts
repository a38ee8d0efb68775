import {
  type IncomingHttpHeaders,
  type IncomingMessage,
  type ServerResponse,
  request,
} from 'node:http'
import { type Server, createServer } from 'node:https'
import type { Socket } from 'node:net'
import { pipeline } from 'node:stream'
import {
  doorHeader,
  longestRequestMilliseconds,
  peerHeader,
} from '#services/devices/door'
import {
  type ServerCertificate,
  isLocalName,
} from '#services/devices/workshop-authority'

/** The door through which the local network reaches a server that listens on this machine alone. */
export type NetworkDoor = {
  readonly certificate: ServerCertificate
  /** The authority's certificate in PEM, which anybody may have. */
  readonly authority: string
  /** The hosts with their ports that this workshop goes by; it answers to no other. */
  readonly hosts: readonly string[]
  readonly port: number
  /** Where the server listens on this machine. */
  readonly innerPort: number
}

/** What a sender may not say of itself: the server believes it. */
const ours =
  /^(?:x-coatbook-|x-forwarded-|forwarded$|x-real-ip$|x-middleware-|x-invoke-|x-nextjs-|connection$|keep-alive$|proxy-|te$|upgrade$)/
/** What a browser asks by, and nothing that only servers ask each other by. */
const methods: ReadonlySet<string> = new Set([
  'GET',
  'HEAD',
  'POST',
  'PUT',
  'PATCH',
  'DELETE',
  'OPTIONS',
])
const headersMilliseconds = 20_000
const mostConnections = 200
/** Of one address: a browser opens six, and a phone may have two of them; the rest of the door stays for the others. */
const mostOfOnePeer = 24

/**
 * Opens HTTPS on the local network and hands on what comes to the server, marked as having come this way. Whoever is not
 * on a local network, or calls the workshop by another name, is turned away here.
 *
 * @throws Error when the port is taken
 */
export async function openNetworkDoor(
  door: NetworkDoor,
): Promise<{ readonly close: () => void }> {
  const server = createServer(
    {
      ...door.certificate,
      minVersion: 'TLSv1.2',
      requestTimeout: longestRequestMilliseconds,
      headersTimeout: headersMilliseconds,
    },
    (incoming, outgoing) => {
      answer(door, incoming, outgoing)
    },
  )
  server.maxConnections = mostConnections
  limitEachPeer(server, mostOfOnePeer)
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      reject(
        error.code === 'EADDRINUSE'
          ? new Error(
              `Port ${door.port} is taken. Stop what uses it, or set COATBOOK_LAN_PORT to another one.`,
            )
          : error,
      )
    })
    server.listen(door.port, '0.0.0.0', resolve)
  })
  return {
    close: () => {
      server.close()
      server.closeAllConnections()
    },
  }
}

/**
 * Cuts off what one address opens beyond its share, before a word is exchanged: a handshake costs more than a refusal.
 */
function limitEachPeer(server: Server, most: number): void {
  const open = new Map<string, number>()
  server.on('connection', (socket: Socket) => {
    const peer = socket.remoteAddress
    if (peer === undefined) return
    const mine = (open.get(peer) ?? 0) + 1
    open.set(peer, mine)
    socket.once('close', () => {
      const left = (open.get(peer) ?? 1) - 1
      if (left === 0) open.delete(peer)
      else open.set(peer, left)
    })
    if (mine > most) socket.destroy()
  })
}

function answer(
  door: NetworkDoor,
  incoming: IncomingMessage,
  outgoing: ServerResponse,
): void {
  const peer = incoming.socket.remoteAddress ?? ''
  if (!isLocalName(peer)) {
    say(outgoing, 403, 'Only the local network is let in here.')
    return
  }
  const host = incoming.headers.host?.toLowerCase()
  if (host === undefined || !door.hosts.includes(host)) {
    // Source: RFC 9110 section 15.5.20, Misdirected Request.
    say(outgoing, 421, 'This workshop does not answer by that name.')
    return
  }
  if (!methods.has(incoming.method ?? '')) {
    say(outgoing, 405, 'That cannot be asked here.')
    return
  }
  if (!isAddress(incoming.url ?? '')) {
    say(outgoing, 400, 'This is no address of the workshop.')
    return
  }
  if (incoming.url === '/authority.crt' && incoming.method === 'GET') {
    outgoing.writeHead(200, {
      'content-type': 'application/x-x509-ca-cert',
      'content-disposition': 'attachment; filename="coatbook-workshop.crt"',
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
    })
    outgoing.end(door.authority)
    return
  }
  const inner = request(
    {
      host: '127.0.0.1',
      port: door.innerPort,
      method: incoming.method,
      path: incoming.url,
      headers: {
        ...passedOn(incoming.headers),
        'x-forwarded-proto': 'https',
        [doorHeader]: 'network',
        [peerHeader]: peer,
      },
    },
    (response) => {
      outgoing.writeHead(
        response.statusCode ?? 502,
        withoutHops(response.headers),
      )
      pipeline(response, outgoing, () => undefined)
    },
  )
  inner.on('error', (error: NodeJS.ErrnoException) => {
    if (outgoing.headersSent) {
      outgoing.destroy()
      return
    }
    // Nothing of the request was seen where nobody listens: it is as good as it was, and held up.
    // Source: RFC 9110 sections 15.6.3, Bad Gateway, and 15.6.4, Service Unavailable.
    const isDown = error.code === 'ECONNREFUSED'
    say(
      outgoing,
      isDown ? 503 : 502,
      'Coatbook does not answer. Is it still running?',
    )
  })
  outgoing.on('close', () => inner.destroy())
  // An upload that is cut short ends the request inside as well; nothing of it is kept then.
  pipeline(incoming, inner, () => undefined)
}

/** A path, as browsers ask for one, whose escapes stand for characters: the framework takes others for a fault of its own. */
function isAddress(url: string): boolean {
  if (!url.startsWith('/')) return false
  try {
    decodeURI(url)
    return true
  } catch {
    return false
  }
}

function passedOn(headers: IncomingHttpHeaders): IncomingHttpHeaders {
  return Object.fromEntries(
    Object.entries(headers).filter(([name]) => !ours.test(name)),
  )
}

function withoutHops(headers: IncomingHttpHeaders): IncomingHttpHeaders {
  return Object.fromEntries(
    Object.entries(headers).filter(
      ([name]) => name !== 'connection' && name !== 'keep-alive',
    ),
  )
}

function say(outgoing: ServerResponse, status: number, text: string): void {
  outgoing.writeHead(status, {
    'content-type': 'text/plain; charset=utf-8',
    'x-content-type-options': 'nosniff',
    connection: 'close',
  })
  outgoing.end(text)
}
