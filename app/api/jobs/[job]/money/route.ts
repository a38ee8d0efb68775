import { present } from '#services/database/instants'
import { noJob } from '#services/jobs/jobs'
import { readMoney } from '#services/money/money'
import { moneyQuery } from '#services/money/schema'
import { moneyToAnswer } from '#services/openapi/money-answer'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readQuery } from '../../../_http/read-query'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/money'>
>({
  GET: async (request, { params }) => {
    const query = readQuery(request, moneyQuery)
    if (!query.ok) return query.refusal
    const { hourly, price } = query.value
    const found = await readMoney(
      (await params).job,
      present({ hourlyMinor: hourly, priceMinor: price }),
    )
    return found === undefined
      ? refusalProblem(noJob.refusal)
      : Response.json(moneyToAnswer(found.money, found.settings.currency))
  },
})
