import { type IncomingMessage, createServer } from 'node:http'
import { Readable } from 'node:stream'
import type { ReadableStream } from 'node:stream/web'
import { resumeRenditions } from '#services/renditions/renditions'
import { openForServing } from '#services/database/open-for-serving'
import * as photosOfJob from '../../app/api/jobs/[job]/photos/route'
import * as photoFile from '../../app/api/photos/[photo]/[rendition]/route'

// The program's own route handlers in a process of their own, which a test can kill: a Next server is the same around
// them, but takes seconds to start. It opens the journal when it is told to, as another may still have it open.
process.once('message', () => {
  void serve()
})
process.send?.('loaded')

async function serve(): Promise<void> {
  await openForServing()
  void resumeRenditions()
  const server = createServer((incoming, outgoing) => {
    void answerTo(incoming).then((response) => {
      outgoing.writeHead(response.status, Object.fromEntries(response.headers))
      if (response.body === null) outgoing.end()
      else Readable.fromWeb(response.body as ReadableStream).pipe(outgoing)
    })
  })
  server.listen(0, '127.0.0.1', () => {
    const address = server.address()
    process.send?.(
      typeof address === 'object' && address !== null ? address.port : 0,
    )
  })
}

async function answerTo(incoming: IncomingMessage): Promise<Response> {
  const [, , kind = '', id = '', part = ''] = (incoming.url ?? '').split('/')
  const headers = new Headers({ host: incoming.headers.host ?? '' })
  headers.set('content-type', incoming.headers['content-type'] ?? '')
  const request = new Request(`http://127.0.0.1${incoming.url ?? ''}`, {
    method: incoming.method ?? 'GET',
    headers,
    ...(incoming.method === 'POST'
      ? {
          body: Readable.toWeb(incoming) as globalThis.ReadableStream,
          duplex: 'half' as const,
        }
      : {}),
  })
  return kind === 'jobs'
    ? await photosOfJob.POST(request, { params: Promise.resolve({ job: id }) })
    : await photoFile.GET(request, {
        params: Promise.resolve({ photo: id, rendition: part }),
      })
}
