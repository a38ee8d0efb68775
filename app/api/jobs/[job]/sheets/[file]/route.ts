import { makeSheet, sheetFormat, sheetShape } from '#services/sheets/make-sheet'
import { methods } from '../../../../_http/methods'
import { problem, refusalProblem } from '../../../../_http/problem'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/sheets/[file]'>
>({
  GET: async (request, { params }) => {
    const { job, file } = await params
    const [, name = '', ending = ''] = /^(\w+)\.(\w+)$/.exec(file) ?? []
    const shape = sheetShape(name)
    const format = sheetFormat(ending)
    if (shape === undefined || format === undefined) {
      return problem(
        404,
        'There is no such sheet. Sheets come as 1x1, 4x5, 9x16 or 16x9, each as jpg, png or webp: for example 1x1.jpg.',
      )
    }
    const { searchParams } = new URL(request.url)
    const sheet = await makeSheet(job, shape, format, {
      before: searchParams.get('before') ?? undefined,
      after: searchParams.get('after') ?? undefined,
    })
    if (!sheet.ok) return refusalProblem(sheet.refusal)
    const { bytes, mediaType, fileName } = sheet.value
    return new Response(new Uint8Array(bytes), {
      headers: {
        'content-type': mediaType,
        // The name in full, for letters beyond ASCII: RFC 6266 section 4.3 and RFC 8187.
        'content-disposition': `inline; filename*=UTF-8''${encodeURIComponent(fileName)}`,
        'content-length': String(bytes.byteLength),
        'cache-control': 'private, no-cache',
      },
    })
  },
})
