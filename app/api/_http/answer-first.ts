import { subscribe } from 'node:diagnostics_channel'
import type { IncomingMessage, Server, ServerResponse } from 'node:http'
import { longestRequestMilliseconds } from '#services/devices/door'
import { everyAnswer, ofOwnSite } from '../../_answer-headers.mjs'

/** What the framework puts on every answer; `tests/browser/uploads.spec.ts` compares them. */
const headersOfEveryAnswer = Object.fromEntries(
  [...everyAnswer, ...ofOwnSite].map(({ key, value }) => [
    key.toLowerCase(),
    value,
  ]),
)

/** Gives the answer to a request that it knows; undefined leaves it to the next, and at last to the framework. */
export type FirstAnswer = (
  incoming: IncomingMessage,
) => Promise<Response> | undefined

/**
 * Has requests answered by the server that the framework listens with, before the framework sees them, and gives that
 * server as long as the door in front of it has: the framework leaves it at Node's five minutes, by which a body that is
 * still coming through the door would be cut off. The limit for headers stays as it is.
 *
 * Node names its server to whoever listens when the first request comes, before it is answered.
 *
 * @param answers asked in order
 * @param prepare what is done with the way back of all that is left to the framework
 * Source: Node.js, Diagnostics Channel, `http.server.request.start`; HTTP, `server.requestTimeout`.
 */
export function answerFirst(
  answers: readonly FirstAnswer[],
  prepare: (incoming: IncomingMessage, outgoing: ServerResponse) => void,
): void {
  const known = new WeakSet<Server>()
  subscribe('http.server.request.start', (message) => {
    const { server } = message as { readonly server: Server }
    if (known.has(server)) return
    known.add(server)
    server.requestTimeout = longestRequestMilliseconds
    const others = server.listeners('request')
    server.removeAllListeners('request')
    server.on('request', (incoming, outgoing) => {
      for (const one of answers) {
        const answer = one(incoming)
        if (answer === undefined) continue
        answer
          .then((response) => send(response, incoming, outgoing))
          .catch((error: unknown) => {
            // A route answers for its own failures: this one came before it or after it.
            console.error(error)
            outgoing.destroy()
          })
        return
      }
      prepare(incoming, outgoing)
      for (const other of others) other.call(server, incoming, outgoing)
    })
  })
}

async function send(
  response: Response,
  incoming: IncomingMessage,
  outgoing: ServerResponse,
): Promise<void> {
  const body = Buffer.from(await response.arrayBuffer())
  outgoing.writeHead(response.status, {
    ...headersOfEveryAnswer,
    ...Object.fromEntries(response.headers),
    'content-length': body.byteLength,
  })
  outgoing.end(body)
  // What nobody read of the request must not be taken for the next one.
  incoming.resume()
}
