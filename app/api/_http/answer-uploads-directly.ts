import type { IncomingMessage } from 'node:http'
import { POST } from '../jobs/[job]/photos/route'
import { withBody } from './body-of'

const photosOfJob = /^\/api\/jobs\/([\w-]+)\/photos$/

/**
 * Photos that are sent to a job, answered by their route without the framework in between: it would carry every byte
 * through streams of its own, for which the sender of a photo of 4 MB waits a dozen milliseconds. The route and all that
 * guards it are the same.
 */
export function answerToUpload(
  incoming: IncomingMessage,
): Promise<Response> | undefined {
  const job =
    incoming.method === 'POST'
      ? photosOfJob.exec(incoming.url ?? '')?.[1]
      : undefined
  return job === undefined ? undefined : answer(job, incoming)
}

async function answer(
  job: string,
  incoming: IncomingMessage,
): Promise<Response> {
  // By which host it was asked stands in its headers, as whatever its sender wrote.
  const request = new Request(`http://localhost${incoming.url ?? ''}`, {
    method: 'POST',
    headers: headersOf(incoming),
  })
  return POST(withBody(request, incoming), {
    params: Promise.resolve({ job }),
  })
}

function headersOf({ rawHeaders }: IncomingMessage): Headers {
  const headers = new Headers()
  for (let i = 0; i + 1 < rawHeaders.length; i += 2) {
    headers.append(rawHeaders[i] ?? '', rawHeaders[i + 1] ?? '')
  }
  return headers
}
