import { putInBin } from '#services/bin/bin-parts'
import { now } from '#services/clock'
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
  DELETE: async (_request, { params }) => {
    const { job } = await params
    const put = await putInBin({ kind: 'job', jobId: job, id: job }, now())
    return put.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(put.refusal)
  },
})
