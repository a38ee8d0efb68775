import type { Readable } from 'node:stream'

const bodies = new WeakMap<Request, Readable>()

/** What a request brings: as the server reads it, where it came past the framework, else as the framework hands it on. */
export function bodyOf(
  request: Request,
): Readable | ReadableStream<Uint8Array> | null {
  return bodies.get(request) ?? request.body
}

/** Gives a request without a body the one that the server reads for it. */
export function withBody(request: Request, body: Readable): Request {
  bodies.set(request, body)
  return request
}
