import { messagePage } from '#core/portfolio/message-page'
import { servedLinks } from '#core/portfolio/portfolio-links'
import { readPortfolioHead } from '#services/portfolio/settings'
import { pageAnswer } from './_answers'

/** The answer for a piece that is not out, the same whether it ever was. */
export async function nothingHere(): Promise<Response> {
  return pageAnswer(
    messagePage(await readPortfolioHead(), servedLinks, {
      title: 'There is no such page',
      words: 'It may have been taken down, or the address is not quite right.',
    }),
    404,
  )
}
