import { Readable } from 'node:stream'

/** A file to send: how large it is, what it is, and how to open it or a part of it. */
export type SentFile = {
  readonly byteLength: number
  readonly mediaType: string
  /** A name for exactly these bytes. */
  readonly tag: string
  readonly open: (range?: {
    readonly first: number
    readonly last: number
  }) => Readable
  readonly headers?: Readonly<Record<string, string>>
}

/**
 * A file whose bytes never change, with what lets a browser keep it for good: a tag, 304 when it has it, and part of it
 * (206) when it asks for one range. The file is closed when the reader goes away.
 *
 * Source: RFC 9110 sections 13 (conditional requests) and 14 (ranges).
 */
export function sendFile(request: Request, file: SentFile): Response {
  const etag = `"${file.tag}"`
  const headers = {
    etag,
    'cache-control': 'private, max-age=31536000, immutable',
    'accept-ranges': 'bytes',
    ...file.headers,
  }
  if (names(request.headers.get('if-none-match'), etag)) {
    return new Response(null, { status: 304, headers })
  }
  const range = wantedRange(request, file.byteLength, etag)
  if (range === 'unsatisfiable') {
    return new Response(null, {
      status: 416,
      headers: { ...headers, 'content-range': `bytes */${file.byteLength}` },
    })
  }
  const first = range?.first ?? 0
  const last = range?.last ?? file.byteLength - 1
  return new Response(
    bodyOf(() => file.open(range), request.signal),
    {
      status: range === undefined ? 200 : 206,
      headers: {
        ...headers,
        'content-type': file.mediaType,
        'content-length': String(last - first + 1),
        ...(range === undefined
          ? {}
          : { 'content-range': `bytes ${first}-${last}/${file.byteLength}` }),
      },
    },
  )
}

function names(header: string | null, etag: string): boolean {
  if (header === null) return false
  return header
    .split(',')
    .map((one) => one.trim().replace(/^W\//, ''))
    .some((one) => one === etag || one === '*')
}

type Range = { readonly first: number; readonly last: number }

/** The one range that is asked for; undefined for the whole, which is also a fair answer to several ranges. */
function wantedRange(
  request: Request,
  byteLength: number,
  etag: string,
): Range | 'unsatisfiable' | undefined {
  const condition = request.headers.get('if-range')
  if (condition !== null && condition !== etag) return undefined
  const parts = /^bytes=(\d*)-(\d*)$/.exec(request.headers.get('range') ?? '')
  const [, from = '', to = ''] = parts ?? []
  if (parts === null || (from === '' && to === '')) return undefined
  if (from === '') {
    const length = Math.min(Number(to), byteLength)
    if (length === 0) return 'unsatisfiable'
    return { first: byteLength - length, last: byteLength - 1 }
  }
  const first = Number(from)
  const last = to === '' ? byteLength - 1 : Number(to)
  if (to !== '' && last < first) return undefined
  if (first >= byteLength) return 'unsatisfiable'
  return { first, last: Math.min(last, byteLength - 1) }
}

/** The bytes as a stream that opens the file when somebody reads and closes it when the reader goes away half-way. */
function bodyOf(
  open: () => Readable,
  signal: AbortSignal,
): ReadableStream<Uint8Array> {
  let source: Readable | undefined
  let chunks: AsyncIterator<unknown> | undefined
  const close = () => source?.destroy()
  signal.addEventListener('abort', close, { once: true })
  return new ReadableStream<Uint8Array>(
    {
      pull: async (controller) => {
        source ??= open()
        chunks ??= source[Symbol.asyncIterator]()
        const chunk = await chunks.next()
        if (chunk.value instanceof Uint8Array) {
          controller.enqueue(new Uint8Array(chunk.value))
        } else {
          controller.close()
        }
      },
      cancel: () => {
        close()
      },
    },
    // Without a reader, as for HEAD, nothing may be opened.
    { highWaterMark: 0 },
  )
}
