import { readBench } from '#services/bench/bench'
import { now } from '#services/clock'
import { benchToAnswer } from '#services/openapi/bench-answer'
import { benchQuery } from '#services/openapi/queries'
import { methods } from '../_http/methods'
import { readQuery } from '../_http/read-query'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async (request) => {
    const query = readQuery(request, benchQuery)
    if (!query.ok) return query.refusal
    const bench = await readBench(query.value.at ?? now())
    return Response.json(benchToAnswer(bench, query.value.size))
  },
})
