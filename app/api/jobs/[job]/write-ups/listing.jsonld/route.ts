import { now } from '#services/clock'
import { noJob } from '#services/jobs/jobs'
import { readListingJsonLd } from '#services/write-ups/write-ups'
import { methods } from '../../../../_http/methods'
import { originOf } from '../../../../_http/origin-of'
import { refusalProblem } from '../../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/write-ups/listing.jsonld'>
>({
  GET: async (request, { params }) => {
    const read = await readListingJsonLd(
      (await params).job,
      now(),
      originOf(request),
    )
    if (read === undefined) return refusalProblem(noJob.refusal)
    // No "<" in it, so that it can stand in a page as it is.
    return new Response(JSON.stringify(read).replaceAll('<', '\\u003c'), {
      headers: { 'content-type': 'application/ld+json; charset=utf-8' },
    })
  },
})
