import { noJob } from '#services/jobs/jobs'
import { timelineToAnswer } from '#services/openapi/timeline-answer'
import { readJobTimeline } from '#services/timeline/timeline'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/timeline'>
>({
  GET: async (_request, { params }) => {
    const found = await readJobTimeline((await params).job)
    return found === undefined
      ? refusalProblem(noJob.refusal)
      : Response.json(timelineToAnswer(found.timeline))
  },
})
