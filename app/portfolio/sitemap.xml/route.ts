import { portfolioSitemap } from '#core/portfolio/sitemap'
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
      const { publicAddress } = await readPortfolioHead()
      if (publicAddress === undefined) return nothingHere()
      return xmlAnswer(
        portfolioSitemap(await readPublished(), publicAddress, rfc3339),
        'application/xml',
      )
    },
  },
  { open: 'published' },
)
