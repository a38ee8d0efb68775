import type { WriteUpName } from '#core/write-ups/write-up'
import { now } from '#services/clock'
import { noJob } from '#services/jobs/jobs'
import { writeUpToAnswer } from '#services/openapi/write-up-answer'
import { writeUpQuery } from '#services/write-ups/schema'
import { readWriteUp } from '#services/write-ups/write-ups'
import { prefersJson } from './prefers-json'
import { refusalProblem } from './problem'
import { readQuery } from './read-query'
import { textAnswer } from './text-answer'

/** A write-up as plain text, or with the facts behind its sentences where the request prefers JSON. */
export async function readWriteUpAnswer(
  request: Request,
  job: string,
  name: WriteUpName,
): Promise<Response> {
  const query = readQuery(request, writeUpQuery)
  if (!query.ok) return query.refusal
  const writeUp = await readWriteUp(job, name, now(), query.value)
  if (writeUp === undefined) return refusalProblem(noJob.refusal)
  const answer = prefersJson(request)
    ? Response.json(writeUpToAnswer(writeUp))
    : textAnswer(writeUp.text)
  answer.headers.set('vary', 'Accept')
  return answer
}
