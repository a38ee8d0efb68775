import { takeBack } from '#services/bin/bin-parts'
import { binPlace } from '#services/bin/schema'
import { methods } from '../../_http/methods'
import { refusalProblem } from '../../_http/problem'
import { readJson } from '../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  POST: async (request) => {
    const place = await readJson(request, binPlace)
    if (!place.ok) return place.refusal
    const { kind, job, id } = place.value
    const back = await takeBack({ kind, jobId: job, id })
    return back.ok
      ? new Response(null, { status: 204 })
      : refusalProblem(back.refusal)
  },
})
