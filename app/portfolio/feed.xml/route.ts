import { portfolioFeed } from '#core/portfolio/feed'
import { readPublished } from '#services/portfolio/published'
import { readPortfolioHead } from '#services/portfolio/settings'
import { rfc3339 } from '#services/portfolio/static-copy'
import { methods } from '../../api/_http/methods'
import { xmlAnswer } from '../_answers'
import { nothingHere } from '../_nothing-here'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods(
  {
    GET: async () => {
      const { publicAddress, ...head } = await readPortfolioHead()
      // Its links must be whole, and without a public address there are none.
      if (publicAddress === undefined) return nothingHere()
      return xmlAnswer(
        portfolioFeed(
          await readPublished(),
          { ...head, publicAddress },
          rfc3339,
        ),
        'application/atom+xml',
      )
    },
  },
  { open: 'published' },
)
