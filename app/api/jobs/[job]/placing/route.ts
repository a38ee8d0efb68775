import { now } from '#services/clock'
import { noJob } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import {
  keptPlacingToAnswer,
  placingToAnswer,
} from '#services/openapi/placing-answer'
import { confirmPlacing } from '#services/placing/confirm-placing'
import { readPlacing } from '#services/placing/read-placing'
import { newPlacing } from '#services/placing/schema'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readJson } from '../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/placing'>
>({
  GET: async (_request, { params }) => {
    const journal = await readJournal((await params).job)
    return journal === undefined
      ? refusalProblem(noJob.refusal)
      : Response.json(placingToAnswer(await readPlacing(journal)))
  },
  POST: async (request, { params }) => {
    const placing = await readJson(request, newPlacing)
    if (!placing.ok) return placing.refusal
    const kept = await confirmPlacing((await params).job, placing.value, now())
    return kept.ok
      ? Response.json(keptPlacingToAnswer(kept.value), { status: 201 })
      : refusalProblem(kept.refusal)
  },
})
