import { putInBin } from '#services/bin/bin-parts'
import { now } from '#services/clock'
import { methods } from '../../../../_http/methods'
import { refusalProblem } from '../../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/photos/[photo]'>
>({
  DELETE: async (_request, { params }) => {
    const { job, photo } = await params
    const put = await putInBin({ kind: 'photo', jobId: job, id: photo }, now())
    return put.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(put.refusal)
  },
})
