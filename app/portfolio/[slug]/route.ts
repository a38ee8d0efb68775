import { piecePage } from '#core/portfolio/piece-page'
import { servedLinks } from '#core/portfolio/portfolio-links'
import { readPublishedPiece } from '#services/portfolio/published'
import { readPortfolioHead } from '#services/portfolio/settings'
import { methods } from '../../api/_http/methods'
import { pageAnswer } from '../_answers'
import { nothingHere } from '../_nothing-here'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/portfolio/[slug]'>
>(
  {
    GET: async (_request, { params }) => {
      const piece = await readPublishedPiece((await params).slug)
      return piece === undefined
        ? nothingHere()
        : pageAnswer(piecePage(piece, await readPortfolioHead(), servedLinks))
    },
  },
  { open: 'published' },
)
