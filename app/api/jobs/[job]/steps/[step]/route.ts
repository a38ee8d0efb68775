import { stepToAnswer } from '#services/openapi/step-answer'
import { newStep } from '#services/steps/schema'
import { now } from '#services/clock'
import { changeStep, readStepOf, removeStep } from '#services/steps/steps'
import { methods } from '../../../../_http/methods'
import { refusalProblem } from '../../../../_http/problem'
import { readJson } from '../../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/steps/[step]'>
>({
  GET: async (_request, { params }) => {
    const { job, step } = await params
    const found = await readStepOf(job, step)
    return found.ok
      ? Response.json(stepToAnswer(found.value))
      : refusalProblem(found.refusal)
  },
  PUT: async (request, { params }) => {
    const step = await readJson(request, newStep)
    if (!step.ok) return step.refusal
    const { job, step: id } = await params
    const changed = await changeStep(job, id, step.value, now())
    return changed.ok
      ? Response.json(stepToAnswer(changed.value))
      : refusalProblem(changed.refusal)
  },
  DELETE: async (_request, { params }) => {
    const { job, step } = await params
    const removed = await removeStep(job, step, now())
    return removed.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(removed.refusal)
  },
})
