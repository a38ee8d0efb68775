import { now } from '#services/clock'
import { renumberedToAnswer } from '#services/openapi/change-answer'
import { renumberCoats } from '#services/steps/mend-order'
import { coatsToCount } from '#services/steps/schema'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readJson } from '../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/renumbering'>
>({
  POST: async (request, { params }) => {
    const counts = await readJson(request, coatsToCount)
    if (!counts.ok) return counts.refusal
    const { kind, surfaces, first } = counts.value
    const done = await renumberCoats(
      (await params).job,
      surfaces.map((surfaceId) => ({
        kind,
        surfaceId,
        ...(first !== undefined && { first }),
      })),
      now(),
    )
    return done.ok
      ? Response.json(renumberedToAnswer(done.value))
      : refusalProblem(done.refusal)
  },
})
