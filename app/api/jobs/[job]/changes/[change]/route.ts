import { undoChange } from '#services/changes/changes'
import { now } from '#services/clock'
import { methods } from '../../../../_http/methods'
import { refusalProblem } from '../../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/changes/[change]'>
>({
  DELETE: async (_request, { params }) => {
    const { job, change } = await params
    const undone = await undoChange(job, change, now())
    return undone.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(undone.refusal)
  },
})
