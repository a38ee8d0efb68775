import { materialsToAnswer } from '#services/openapi/materials-answer'
import { noJob } from '#services/jobs/jobs'
import { readMaterials } from '#services/materials/materials'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/materials.json'>
>({
  GET: async (_request, { params }) => {
    const found = await readMaterials((await params).job)
    return found === undefined
      ? refusalProblem(noJob.refusal)
      : Response.json(materialsToAnswer(found, found.settings))
  },
})
