import { readVideoDescription } from '#services/write-ups/write-ups'
import { methods } from '../../../../_http/methods'
import { writeUpAnswer } from '../../../../_http/write-up-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/write-ups/video'>
>({
  GET: async (request, { params }) =>
    writeUpAnswer(request, await readVideoDescription((await params).job)),
})
