import { now } from '#services/clock'
import { readListing } from '#services/write-ups/write-ups'
import { methods } from '../../../../_http/methods'
import { writeUpAnswer } from '../../../../_http/write-up-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/write-ups/listing'>
>({
  GET: async (request, { params }) =>
    writeUpAnswer(request, await readListing((await params).job, now())),
})
