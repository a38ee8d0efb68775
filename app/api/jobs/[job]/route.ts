import { noJob, readJob } from '#services/jobs/jobs'
import { jobToAnswer } from '#services/openapi/job-answer'
import { methods } from '../../_http/methods'
import { refusalProblem } from '../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]'>
>({
  GET: async (_request, { params }) => {
    const job = await readJob((await params).job)
    return job === undefined
      ? refusalProblem(noJob.refusal)
      : Response.json(jobToAnswer(job))
  },
})
