import { readPairPicture } from '#services/pairs/read-pair-picture'
import { pairPictureQuery } from '#services/pairs/schema'
import { methods } from '../../../../../_http/methods'
import { problem, refusalProblem } from '../../../../../_http/problem'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/pairs/[pair]/[side]'>
>({
  GET: async (request, { params }) => {
    const { job, pair, side } = await params
    const { searchParams } = new URL(request.url)
    const asked = pairPictureQuery.safeParse(Object.fromEntries(searchParams))
    if (!asked.success) {
      return problem(
        400,
        asked.error.issues[0]?.message ?? 'The address is not understood.',
      )
    }
    const picture = await readPairPicture(job, pair, side, asked.data.light)
    if (!picture.ok) return refusalProblem(picture.refusal)
    const { bytes, tag } = picture.value
    const headers = {
      etag: `"${tag}"`,
      'cache-control': 'private, max-age=0, must-revalidate',
    }
    if (request.headers.get('if-none-match') === headers.etag) {
      return new Response(null, { status: 304, headers })
    }
    return new Response(new Uint8Array(bytes), {
      headers: {
        ...headers,
        'content-type': 'image/webp',
        'content-length': String(bytes.byteLength),
      },
    })
  },
})
