import { readChanges } from '#services/changes/changes'
import { noJob, readJob } from '#services/jobs/jobs'
import { changeListToAnswer } from '#services/openapi/change-answer'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/changes'>
>({
  GET: async (_request, { params }) => {
    const { job } = await params
    if ((await readJob(job)) === undefined) return refusalProblem(noJob.refusal)
    return Response.json(changeListToAnswer(await readChanges(job)))
  },
})
