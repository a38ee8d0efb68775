import { methods } from '../../../../_http/methods'
import { readWriteUpAnswer } from '../../../../_http/write-up-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/write-ups/photos'>
>({
  GET: async (request, { params }) =>
    readWriteUpAnswer(request, (await params).job, 'photos'),
})
