import { materialsCsv } from '#core/materials/materials-csv'
import { noJob } from '#services/jobs/jobs'
import { readMaterials } from '#services/materials/materials'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { textAnswer } from '../../../_http/text-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/materials.csv'>
>({
  GET: async (_request, { params }) => {
    const found = await readMaterials((await params).job)
    return found === undefined
      ? refusalProblem(noJob.refusal)
      : textAnswer(
          materialsCsv(found.list, found.settings),
          'text/csv; header=present',
        )
  },
})
