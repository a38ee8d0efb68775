import { subscribe } from 'node:diagnostics_channel'
import type { IncomingMessage, Server, ServerResponse } from 'node:http'
import { everyAnswer, ofOwnSite } from '../../_answer-headers.mjs'
import { POST } from '../jobs/[job]/photos/route'
import { withBody } from './body-of'

/** What the framework puts on every answer; `tests/browser/uploads.spec.ts` compares them. */
const headersOfEveryAnswer = Object.fromEntries(
  [...everyAnswer, ...ofOwnSite].map(({ key, value }) => [
    key.toLowerCase(),
    value,
  ]),
)

const photosOfJob = /^\/api\/jobs\/([\w-]+)\/photos$/

/**
 * Has photos that are sent to a job answered by their route without the framework in between, by the server that the
 * framework listens with: it would carry every byte through streams of its own, for which the sender of a photo of 4 MB
 * waits a dozen milliseconds. The route and all that guards it are the same.
 *
 * Node names its server to whoever listens when the first request comes, before it is answered.
 *
 * Source: Node.js, Diagnostics Channel, `http.server.request.start`.
 */
export function answerUploadsDirectly(): void {
  const known = new WeakSet<Server>()
  subscribe('http.server.request.start', (message) => {
    const { server } = message as { readonly server: Server }
    if (known.has(server)) return
    known.add(server)
    const others = server.listeners('request')
    server.removeAllListeners('request')
    server.on('request', (incoming, outgoing) => {
      const job =
        incoming.method === 'POST'
          ? photosOfJob.exec(incoming.url ?? '')?.[1]
          : undefined
      if (job !== undefined) {
        answer(job, incoming, outgoing).catch((error: unknown) => {
          // The route answers for its own failures: this one came before it or after it.
          console.error(error)
          outgoing.destroy()
        })
      } else for (const other of others) other.call(server, incoming, outgoing)
    })
  })
}

async function answer(
  job: string,
  incoming: IncomingMessage,
  outgoing: ServerResponse,
): Promise<void> {
  // By which host it was asked stands in its headers, as whatever its sender wrote.
  const request = new Request(`http://localhost${incoming.url ?? ''}`, {
    method: 'POST',
    headers: headersOf(incoming),
  })
  const response = await POST(withBody(request, incoming), {
    params: Promise.resolve({ job }),
  })
  const body = Buffer.from(await response.arrayBuffer())
  outgoing.writeHead(response.status, {
    ...headersOfEveryAnswer,
    ...Object.fromEntries(response.headers),
    'content-length': body.byteLength,
  })
  outgoing.end(body)
}

function headersOf({ rawHeaders }: IncomingMessage): Headers {
  const headers = new Headers()
  for (let i = 0; i + 1 < rawHeaders.length; i += 2) {
    headers.append(rawHeaders[i] ?? '', rawHeaders[i + 1] ?? '')
  }
  return headers
}
