import { now } from '#services/clock'
import { pairToAnswer } from '#services/openapi/pair-answer'
import { addPair, findPairsLater, readPairs } from '#services/pairs/pairs'
import { newPair } from '#services/pairs/schema'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readJson } from '../../../_http/read-json'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/pairs'>
>({
  GET: async (_request, { params }) => {
    const { job } = await params
    const finding = await findPairsLater(job, now())
    if (!finding.ok) return refusalProblem(finding.refusal)
    const pairs = await readPairs(job)
    return Response.json({
      pairs: pairs.map(pairToAnswer),
      finding: finding.value,
    })
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
