import { undoWorkshopChange } from '#services/changes/workshop-changes'
import { now } from '#services/clock'
import { methods } from '../../_http/methods'
import { refusalProblem } from '../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/changes/[change]'>
>({
  DELETE: async (_request, { params }) => {
    const { change } = await params
    const undone = await undoWorkshopChange(change, now())
    return undone.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(undone.refusal)
  },
})
