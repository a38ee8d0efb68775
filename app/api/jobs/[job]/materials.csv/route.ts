import { materialsCsv } from '#core/materials/materials-csv'
import { noJob } from '#services/jobs/jobs'
import { readMaterials } from '#services/materials/materials'
import { materialsCsvQuery } from '#services/materials/schema'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readQuery } from '../../../_http/read-query'
import { textAnswer } from '../../../_http/text-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/materials.csv'>
>({
  GET: async (request, { params }) => {
    const query = readQuery(request, materialsCsvQuery)
    if (!query.ok) return query.refusal
    const found = await readMaterials((await params).job)
    return found === undefined
      ? refusalProblem(noJob.refusal)
      : textAnswer(
          materialsCsv(found.list, found.settings, query.value.reader),
          'text/csv; header=present',
        )
  },
})
