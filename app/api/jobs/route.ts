import { now } from '#services/clock'
import { addJob, readJob, readJobs } from '#services/jobs/jobs'
import { newJob } from '#services/jobs/schema'
import { jobListToAnswer, jobToAnswer } from '#services/openapi/job-answer'
import { pageQuery } from '#services/openapi/queries'
import { methods } from '../_http/methods'
import { problem } from '../_http/problem'
import { readJson } from '../_http/read-json'
import { readQuery } from '../_http/read-query'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async (request) => {
    const page = readQuery(request, pageQuery)
    if (!page.ok) return page.refusal
    const { after, size } = page.value
    if (after !== undefined && (await readJob(after)) === undefined) {
      return problem(
        400,
        'There is no job to go on from; it may have been removed. Begin again without "after".',
      )
    }
    return Response.json(jobListToAnswer(await readJobs(after, size)))
  },
  POST: async (request) => {
    const job = await readJson(request, newJob)
    if (!job.ok) return job.refusal
    const added = await addJob(job.value, now())
    return Response.json(jobToAnswer(added), { status: 201 })
  },
})
