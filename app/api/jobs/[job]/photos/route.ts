import { now } from '#services/clock'
import { type KeptUpload, keepPhotos } from '#services/intake/keep-photos'
import { receiveUpload } from '#services/intake/receive-upload'
import { readSendingKey } from '#services/receipts/receipts'
import { bodyOf } from '../../../_http/body-of'
import { methods } from '../../../_http/methods'
import { problem, refusalProblem } from '../../../_http/problem'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/photos'>
>({
  POST: async (request, { params }) => {
    const { job } = await params
    const contentType = request.headers.get('content-type') ?? ''
    if (!contentType.toLowerCase().startsWith('multipart/form-data')) {
      return problem(
        415,
        'Send photos as a form with files (multipart/form-data), each in a part named "file".',
      )
    }
    const key = readSendingKey(request.headers.get('idempotency-key'))
    if (!key.ok) return refusalProblem(key.refusal)
    const upload = await receiveUpload(contentType, bodyOf(request))
    if (!upload.ok) return refusalProblem(upload.refusal)
    const kept = await keepPhotos(job, upload.value, now(), key.value)
    if (!kept.ok) return refusalProblem(kept.refusal)
    return answer(kept.value)
  },
})

function answer({ photos, rejected }: KeptUpload): Response {
  if (photos.length > 0) {
    return Response.json(
      { photos: photos.map(toWire), rejected },
      { status: 201 },
    )
  }
  const first = rejected[0]
  if (first === undefined) {
    return problem(400, 'There was no photo in it. Choose at least one.')
  }
  return problem(422, `${first.name}: ${first.reason}`, { rejected })
}

function toWire({ taken, basis, ...photo }: KeptUpload['photos'][number]) {
  const text = (at: number) => new Date(at).toISOString()
  return {
    ...photo,
    taken: {
      at: text(taken.at),
      earliest: text(taken.earliest),
      latest: text(taken.latest),
      basis,
    },
  }
}
