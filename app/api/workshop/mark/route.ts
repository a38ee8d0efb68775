import { now } from '#services/clock'
import { keepMarkPicture, readMark } from '#services/sheets/own-mark'
import { methods } from '../../_http/methods'
import { problem, refusalProblem } from '../../_http/problem'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async () => {
    const mark = await readMark()
    if (mark?.picture === undefined) {
      return problem(404, 'The workshop has no mark of its own as a picture.')
    }
    return new Response(new Uint8Array(mark.picture.bytes), {
      headers: { 'content-type': 'image/png', 'cache-control': 'no-cache' },
    })
  },
  POST: async (request) => {
    const contentType = request.headers.get('content-type') ?? ''
    if (!contentType.toLowerCase().startsWith('multipart/form-data')) {
      return problem(
        415,
        'Send the mark as a form with one picture (multipart/form-data).',
      )
    }
    const kept = await keepMarkPicture(contentType, request.body, now())
    return kept.ok
      ? Response.json(kept.value, { status: 201 })
      : refusalProblem(kept.refusal)
  },
})
