import { escaped } from '#core/portfolio/html'
import { wholeAddress } from '#core/portfolio/portfolio-links'
import type { PublishedPiece } from '#core/portfolio/shown-piece'
import { type Instant, instant } from '#core/units'

/**
 * All pages of the portfolio for search engines.
 *
 * Source: the Sitemap protocol 0.9, https://www.sitemaps.org/protocol.html
 *
 * @param instantText gives an instant as RFC 3339 has it
 */
export function portfolioSitemap(
  pieces: readonly Pick<PublishedPiece, 'slug' | 'changedAt'>[],
  publicAddress: string,
  instantText: (at: Instant) => string,
): string {
  const page = (address: string, changedAt: Instant | undefined) =>
    `<url><loc>${escaped(address)}</loc>${changedAt === undefined ? '' : `<lastmod>${instantText(changedAt)}</lastmod>`}</url>`
  const newest = pieces.map(({ changedAt }) => changedAt)
  return [
    '<?xml version="1.0" encoding="utf-8"?>',
    '<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">',
    page(
      wholeAddress(publicAddress),
      newest.length === 0 ? undefined : instant(Math.max(...newest)),
    ),
    ...pieces.map(({ slug, changedAt }) =>
      page(wholeAddress(publicAddress, slug), changedAt),
    ),
    '</urlset>',
    '',
  ].join('\n')
}
