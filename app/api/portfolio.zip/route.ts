import { Readable } from 'node:stream'
import { openStaticCopy } from '#services/portfolio/static-copy'
import { methods } from '../_http/methods'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async (request) => {
    const copy = await openStaticCopy()
    request.signal.addEventListener('abort', () => copy.destroy(), {
      once: true,
    })
    // Its own type of the same streams is the older one.
    return new Response(Readable.toWeb(copy) as ReadableStream<Uint8Array>, {
      headers: {
        'content-type': 'application/zip',
        'content-disposition': 'attachment; filename="portfolio.zip"',
        'cache-control': 'no-store',
      },
    })
  },
})
