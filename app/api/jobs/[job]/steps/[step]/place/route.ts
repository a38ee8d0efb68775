import { now } from '#services/clock'
import { moveStep } from '#services/steps/mend-order'
import { stepMove } from '#services/steps/schema'
import { methods } from '../../../../../_http/methods'
import { refusalProblem } from '../../../../../_http/problem'
import { readJson } from '../../../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/steps/[step]/place'>
>({
  POST: async (request, { params }) => {
    const move = await readJson(request, stepMove)
    if (!move.ok) return move.refusal
    const { job, step } = await params
    const moved = await moveStep(job, step, move.value, now())
    return moved.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(moved.refusal)
  },
})
