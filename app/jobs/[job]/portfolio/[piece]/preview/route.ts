import { piecePage } from '#core/portfolio/piece-page'
import { previewLinks } from '#core/portfolio/portfolio-links'
import { contentOf, readDraft } from '#services/portfolio/drafts'
import { readPortfolioHead } from '#services/portfolio/settings'
import { methods } from '../../../../../api/_http/methods'
import { refusalProblem } from '../../../../../api/_http/problem'
import { pageAnswer } from '../../../../../portfolio/_answers'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/jobs/[job]/portfolio/[piece]/preview'>
>({
  GET: async (_request, { params }) => {
    const { job, piece } = await params
    const draft = await readDraft(job, piece)
    if (!draft.ok) return refusalProblem(draft.refusal)
    const { shown } = await contentOf(draft.value)
    return pageAnswer(
      piecePage(
        { slug: draft.value.slug, shown },
        await readPortfolioHead(),
        previewLinks(`/jobs/${job}/portfolio/${piece}/preview`),
      ),
    )
  },
})
