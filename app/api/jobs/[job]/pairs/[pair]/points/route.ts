import { now } from '#services/clock'
import { pairToAnswer } from '#services/openapi/pair-answer'
import { alignByHand, alignByPictures } from '#services/pairs/pairs'
import { handPoints } from '#services/pairs/schema'
import { methods } from '../../../../../_http/methods'
import { refusalProblem } from '../../../../../_http/problem'
import { readJson } from '../../../../../_http/read-json'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/pairs/[pair]/points'>
>({
  PUT: async (request, { params }) => {
    const points = await readJson(request, handPoints)
    if (!points.ok) return points.refusal
    const { job, pair } = await params
    const aligned = await alignByHand(job, pair, points.value, now())
    return aligned.ok
      ? Response.json(pairToAnswer(aligned.value))
      : refusalProblem(aligned.refusal)
  },
  DELETE: async (_request, { params }) => {
    const { job, pair } = await params
    const aligned = await alignByPictures(job, pair)
    return aligned.ok
      ? Response.json(pairToAnswer(aligned.value))
      : refusalProblem(aligned.refusal)
  },
})
