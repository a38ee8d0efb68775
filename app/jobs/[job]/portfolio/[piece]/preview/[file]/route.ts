import { readDraft } from '#services/portfolio/drafts'
import { pictureOf } from '#services/portfolio/published'
import { methods } from '../../../../../../api/_http/methods'
import { problem, refusalProblem } from '../../../../../../api/_http/problem'
import { pictureAnswer } from '../../../../../../portfolio/_answers'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/jobs/[job]/portfolio/[piece]/preview/[file]'>
>({
  GET: async (request, { params }) => {
    const { job, piece, file } = await params
    const draft = await readDraft(job, piece)
    if (!draft.ok) return refusalProblem(draft.refusal)
    const { shown, sources } = draft.value
    const picture = await pictureOf(piece, shown, sources, file)
    return picture === undefined
      ? problem(404, 'The page of this piece does not show such a picture.')
      : pictureAnswer(request, picture)
  },
})
