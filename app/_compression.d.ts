declare module 'compression' {
  import type { IncomingMessage, ServerResponse } from 'node:http'

  /** Compresses what a server answers; its own types are those of a larger framework. */
  export default function compression(): (
    request: IncomingMessage,
    response: ServerResponse,
    next: () => void,
  ) => void
}
