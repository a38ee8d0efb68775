import type { makePaperSheet } from '#services/sheets/make-paper-sheet'
import type { makeReveal } from '#services/sheets/make-reveal'
import {
  makeSheet,
  paperShape,
  sheetFormat,
  sheetShape,
} from '#services/sheets/make-sheet'
import { sheetQuery } from '#services/sheets/schema'
import { methods } from '../../../../_http/methods'
import { problem, refusalProblem } from '../../../../_http/problem'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/sheets/[file]'>
>({
  GET: async (request, { params }) => {
    const { job, file } = await params
    const [, name = '', moving, ending = ''] =
      /^(\w+?)(-reveal)?\.(\w+)$/.exec(file) ?? []
    const { searchParams } = new URL(request.url)
    const asked = sheetQuery.safeParse(Object.fromEntries(searchParams))
    if (!asked.success) {
      return problem(
        400,
        asked.error.issues[0]?.message ?? 'The address is not understood.',
      )
    }
    const { width, ...chosen } = asked.data
    const shape = sheetShape(name)
    const format = sheetFormat(ending)
    const paper = ending === 'pdf' ? paperShape(name) : undefined
    const making =
      moving !== undefined
        ? shape !== undefined && (ending === 'webp' || ending === 'mp4')
          ? reveal(job, shape, ending, chosen)
          : undefined
        : paper !== undefined
          ? paperSheet(job, paper, chosen)
          : shape !== undefined && format !== undefined
            ? makeSheet(job, shape, format, chosen, width)
            : undefined
    if (making === undefined) {
      return problem(
        404,
        'There is no such sheet. Sheets come as 1x1, 4x5, 9x16 or 16x9, each as jpg, png or webp, and as letter or a4, each as pdf: for example 1x1.jpg or a4.pdf; the moving reveal as 1x1-reveal.webp or 1x1-reveal.mp4.',
      )
    }
    const sheet = await making
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

// What they need is loaded with the first of them: whoever looks at a sheet is not to wait for it.
const paperSheet: typeof makePaperSheet = async (...chosen) =>
  (await import('#services/sheets/make-paper-sheet')).makePaperSheet(...chosen)
const reveal: typeof makeReveal = async (...chosen) =>
  (await import('#services/sheets/make-reveal')).makeReveal(...chosen)
