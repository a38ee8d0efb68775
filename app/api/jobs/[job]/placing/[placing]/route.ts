import { now } from '#services/clock'
import { undoPlacing } from '#services/placing/undo-placing'
import { methods } from '../../../../_http/methods'
import { refusalProblem } from '../../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/placing/[placing]'>
>({
  DELETE: async (_request, { params }) => {
    const { job, placing } = await params
    const undone = await undoPlacing(job, placing, now())
    return undone.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(undone.refusal)
  },
})
