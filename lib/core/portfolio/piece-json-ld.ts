import { moneyDigits } from '#core/money/format-money'
import {
  type PortfolioLinks,
  wholeAddress,
} from '#core/portfolio/portfolio-links'
import {
  type PortfolioHead,
  type PublishedPiece,
  type ShownPicture,
  pictureFile,
  picturesOf,
} from '#core/portfolio/shown-piece'
import type { JsonLd } from '#core/write-ups/listing-json-ld'

type PieceOfPage = Pick<PublishedPiece, 'slug' | 'shown'>

/**
 * A piece as schema.org reads it: a Product, with its Offer where it has a price or is sold. Addresses are whole where
 * the portfolio has a public address, else as the page itself has them.
 *
 * Names and values: schema.org, Product, Offer, ImageObject, Organization.
 */
export function pieceJsonLd(
  { slug, shown }: PieceOfPage,
  head: PortfolioHead,
  links: PortfolioLinks,
): JsonLd {
  const { publicAddress } = head
  const description = [...shown.story, shown.finish ?? '', shown.size ?? '']
    .filter((part) => part !== '')
    .join('\n\n')
  const pictures = picturesOf(shown)
  return {
    '@context': 'https://schema.org',
    '@type': 'Product',
    name: shown.title,
    ...(description !== '' && { description }),
    ...(publicAddress !== undefined && {
      url: wholeAddress(publicAddress, slug),
    }),
    ...(shown.kind !== '' && { category: shown.kind }),
    ...(shown.colours.length > 0 && { color: shown.colours.join(', ') }),
    itemCondition: 'https://schema.org/UsedCondition',
    ...(pictures.length > 0 && {
      image: pictures.map((picture) => imageOf(picture, slug, head, links)),
    }),
    ...(shown.price && {
      offers: {
        '@type': 'Offer',
        ...(shown.price.state === 'asking'
          ? {
              price: moneyDigits(shown.price.minor, shown.price.currency),
              priceCurrency: shown.price.currency,
              availability: 'https://schema.org/InStock',
            }
          : { availability: 'https://schema.org/SoldOut' }),
        itemCondition: 'https://schema.org/UsedCondition',
        seller: { '@type': 'Organization', name: head.name },
      },
    }),
  }
}

/** The portfolio as schema.org reads it: a CollectionPage with the list of its pieces. */
export function portfolioJsonLd(
  pieces: readonly PublishedPiece[],
  head: PortfolioHead,
  links: PortfolioLinks,
): JsonLd {
  const { name, publicAddress } = head
  return {
    '@context': 'https://schema.org',
    '@type': 'CollectionPage',
    name: `${name}: portfolio`,
    ...(publicAddress !== undefined && { url: wholeAddress(publicAddress) }),
    mainEntity: {
      '@type': 'ItemList',
      numberOfItems: pieces.length,
      itemListElement: pieces.map(({ slug, shown }, index) => ({
        '@type': 'ListItem',
        position: index + 1,
        name: shown.title,
        url:
          publicAddress === undefined
            ? links.piece(slug)
            : wholeAddress(publicAddress, slug),
      })),
    },
  }
}

function imageOf(
  { name, words, width, height }: ShownPicture,
  slug: string,
  { publicAddress }: PortfolioHead,
  links: PortfolioLinks,
): JsonLd {
  const file = pictureFile(name, 1440)
  return {
    '@type': 'ImageObject',
    contentUrl:
      publicAddress === undefined
        ? links.picture(slug, file)
        : wholeAddress(publicAddress, slug, file),
    caption: words,
    width: `${width} px`,
    height: `${height} px`,
  }
}
