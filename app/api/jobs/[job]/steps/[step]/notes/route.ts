import { now } from '#services/clock'
import { stepToAnswer } from '#services/openapi/step-answer'
import { readSendingKey } from '#services/receipts/receipts'
import { noteLine } from '#services/steps/schema'
import { addToNote } from '#services/steps/steps'
import { methods } from '../../../../../_http/methods'
import { refusalProblem } from '../../../../../_http/problem'
import { readJson } from '../../../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/steps/[step]/notes'>
>({
  POST: async (request, { params }) => {
    const key = readSendingKey(request.headers.get('idempotency-key'))
    if (!key.ok) return refusalProblem(key.refusal)
    const line = await readJson(request, noteLine)
    if (!line.ok) return line.refusal
    const { job, step } = await params
    const added = await addToNote(job, step, line.value.words, now(), key.value)
    return added.ok
      ? Response.json(stepToAnswer(added.value), { status: 201 })
      : refusalProblem(added.refusal)
  },
})
