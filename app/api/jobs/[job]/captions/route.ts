import { keepCaptions, maximumCaptionBytes } from '#services/captions/captions'
import { now } from '#services/clock'
import { chaptersToAnswer } from '#services/openapi/chapters-answer'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { readBytes } from '../../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/captions'>
>({
  POST: async (request, { params }) => {
    const bytes = await readBytes(request, maximumCaptionBytes)
    if (!bytes.ok) return bytes.refusal
    const kept = await keepCaptions((await params).job, bytes.value, now())
    return kept.ok
      ? Response.json(chaptersToAnswer(kept.value))
      : refusalProblem(kept.refusal)
  },
})
