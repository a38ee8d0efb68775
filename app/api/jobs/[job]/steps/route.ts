import { now } from '#services/clock'
import { readSendingKey } from '#services/receipts/receipts'
import { stepToAnswer } from '#services/openapi/step-answer'
import { newStep } from '#services/steps/schema'
import { addStep } from '#services/steps/steps'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readJson } from '../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/steps'>
>({
  POST: async (request, { params }) => {
    const key = readSendingKey(request.headers.get('idempotency-key'))
    if (!key.ok) return refusalProblem(key.refusal)
    const step = await readJson(request, newStep)
    if (!step.ok) return step.refusal
    const added = await addStep(
      (await params).job,
      step.value,
      now(),
      key.value,
    )
    return added.ok
      ? Response.json(stepToAnswer(added.value), { status: 201 })
      : refusalProblem(added.refusal)
  },
})
