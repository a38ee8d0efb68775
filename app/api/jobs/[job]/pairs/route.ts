import { now } from '#services/clock'
import { pairToAnswer } from '#services/openapi/pair-answer'
import { addPair, findPairs } from '#services/pairs/pairs'
import { newPair } from '#services/pairs/schema'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readJson } from '../../../_http/read-json'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/pairs'>
>({
  GET: async (_request, { params }) => {
    const found = await findPairs((await params).job, now())
    return found.ok
      ? Response.json({ pairs: found.value.map(pairToAnswer) })
      : refusalProblem(found.refusal)
  },
  POST: async (request, { params }) => {
    const pair = await readJson(request, newPair)
    if (!pair.ok) return pair.refusal
    const added = await addPair((await params).job, pair.value, now())
    return added.ok
      ? Response.json(pairToAnswer(added.value), { status: 201 })
      : refusalProblem(added.refusal)
  },
})
