import { lightToAnswer } from '#services/openapi/pair-answer'
import { readPairLight } from '#services/pairs/read-pair-picture'
import { methods } from '../../../../../_http/methods'
import { refusalProblem } from '../../../../../_http/problem'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/pairs/[pair]/light'>
>({
  GET: async (_request, { params }) => {
    const { job, pair } = await params
    const light = await readPairLight(job, pair)
    return light.ok
      ? Response.json(lightToAnswer(light.value))
      : refusalProblem(light.refusal)
  },
})
