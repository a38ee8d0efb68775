import { servedLinks } from '#core/portfolio/portfolio-links'
import { portfolioPage } from '#core/portfolio/portfolio-page'
import { readPublished } from '#services/portfolio/published'
import { readPortfolioHead } from '#services/portfolio/settings'
import { methods } from '../api/_http/methods'
import { pageAnswer } from './_answers'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods(
  {
    GET: async () =>
      pageAnswer(
        portfolioPage(
          await readPublished(),
          await readPortfolioHead(),
          servedLinks,
        ),
      ),
  },
  { open: 'published' },
)
