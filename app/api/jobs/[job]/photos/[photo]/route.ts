import { putInBin } from '#services/bin/bin-parts'
import { now } from '#services/clock'
import { mendPhoto } from '#services/photos/mend-photo'
import { photoMending } from '#services/photos/schema'
import { methods } from '../../../../_http/methods'
import { refusalProblem } from '../../../../_http/problem'
import { readJson } from '../../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/photos/[photo]'>
>({
  PATCH: async (request, { params }) => {
    const mending = await readJson(request, photoMending)
    if (!mending.ok) return mending.refusal
    const { job, photo } = await params
    const mended = await mendPhoto(job, photo, mending.value)
    return mended.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(mended.refusal)
  },
  DELETE: async (_request, { params }) => {
    const { job, photo } = await params
    const put = await putInBin({ kind: 'photo', jobId: job, id: photo }, now())
    return put.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(put.refusal)
  },
})
