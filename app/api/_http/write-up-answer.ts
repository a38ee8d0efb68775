import type { WriteUp } from '#core/write-ups/write-up'
import { noJob } from '#services/jobs/jobs'
import { writeUpToAnswer } from '#services/openapi/write-up-answer'
import { prefersJson } from './prefers-json'
import { refusalProblem } from './problem'
import { textAnswer } from './text-answer'

/** A write-up as plain text, or with the facts behind its sentences where the request prefers JSON. */
export function writeUpAnswer(
  request: Request,
  writeUp: WriteUp | undefined,
): Response {
  if (writeUp === undefined) return refusalProblem(noJob.refusal)
  const answer = prefersJson(request)
    ? Response.json(writeUpToAnswer(writeUp))
    : textAnswer(writeUp.text)
  answer.headers.set('vary', 'Accept')
  return answer
}
