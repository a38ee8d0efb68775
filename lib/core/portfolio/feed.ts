import { escaped } from '#core/portfolio/html'
import { wholeAddress } from '#core/portfolio/portfolio-links'
import {
  type PortfolioHead,
  type PublishedPiece,
  leadPicture,
  pictureFile,
} from '#core/portfolio/shown-piece'
import { type Instant, instant } from '#core/units'

/**
 * The pieces that are out as an Atom feed, in the order given.
 *
 * Source: RFC 4287.
 *
 * @param publicAddress where the portfolio is to be found: a feed is read elsewhere, so its links must be whole
 * @param instantText gives an instant as RFC 3339 has it
 */
export function portfolioFeed(
  pieces: readonly PublishedPiece[],
  head: PortfolioHead & { readonly publicAddress: string },
  instantText: (at: Instant) => string,
): string {
  const { publicAddress, name } = head
  const home = wholeAddress(publicAddress)
  const self = wholeAddress(publicAddress, undefined, 'feed.xml')
  const updated = instant(
    Math.max(0, ...pieces.map(({ changedAt }) => changedAt)),
  )
  const entries = pieces.map(({ slug, id, publishedAt, changedAt, shown }) => {
    const lead = leadPicture(shown)
    const content = [
      ...(lead === undefined
        ? []
        : [
            `<p><img src="${escaped(wholeAddress(publicAddress, slug, pictureFile(lead.name, 1440)))}" alt="${escaped(lead.words)}"></p>`,
          ]),
      ...[...shown.story, shown.finish ?? '']
        .filter((part) => part !== '')
        .map((part) => `<p>${escaped(part)}</p>`),
    ].join('')
    return [
      '<entry>',
      `<id>urn:uuid:${escaped(id)}</id>`,
      `<title>${escaped(shown.title)}</title>`,
      `<link rel="alternate" type="text/html" href="${escaped(wholeAddress(publicAddress, slug))}"/>`,
      `<published>${instantText(publishedAt)}</published>`,
      `<updated>${instantText(changedAt)}</updated>`,
      `<content type="html">${escaped(content)}</content>`,
      '</entry>',
    ].join('\n')
  })
  return [
    '<?xml version="1.0" encoding="utf-8"?>',
    '<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="en">',
    `<id>${escaped(home)}</id>`,
    `<title>${escaped(name)}: portfolio</title>`,
    `<author><name>${escaped(name)}</name></author>`,
    `<link rel="self" type="application/atom+xml" href="${escaped(self)}"/>`,
    `<link rel="alternate" type="text/html" href="${escaped(home)}"/>`,
    `<updated>${instantText(updated)}</updated>`,
    ...entries,
    '</feed>',
    '',
  ].join('\n')
}
