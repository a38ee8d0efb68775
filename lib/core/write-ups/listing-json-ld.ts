import type { Journal, Piece, WorkshopSettings } from '#core/journal/journal'
import { decimalText, fractionOf, over } from '#core/money/fraction'
import { moneyDigits } from '#core/money/format-money'
import { mainColours } from '#core/write-ups/appearance'
import { describePhoto } from '#core/write-ups/describe-photo'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'
import { keywordsOf } from '#core/write-ups/keywords'
import { listingPhotos } from '#core/write-ups/listing-photos'
import { plainText } from '#core/write-ups/plain-text'
import { surfaceWork } from '#core/write-ups/surface-work'
import type { WriteUp } from '#core/write-ups/write-up'

/** A value of JSON-LD. */
export type JsonLd =
  string | number | readonly JsonLd[] | { readonly [key: string]: JsonLd }

/**
 * A listing as schema.org reads it: a Product, or for several pieces one that is sold as their set, with its Offer.
 *
 * What is not known is left out. Lengths are in centimetres, `CMT` in UN/CEFACT's codes; furniture that was
 * refinished is used, never new. Names and values: schema.org, Product, Offer, QuantitativeValue, ImageObject.
 *
 * @param listing gives name and description
 * @param photoAddress where a photo is to be fetched
 */
export function listingJsonLd({
  journal,
  settings,
  listing,
  photoAddress,
  photoWords = new Map(),
  language = english,
}: {
  readonly journal: Journal
  readonly settings: WorkshopSettings
  readonly listing: WriteUp
  readonly photoAddress: (photoId: string) => string
  /** The owner's own, by the photo's id; else they are written here. */
  readonly photoWords?: ReadonlyMap<string, string>
  readonly language?: Language
}): JsonLd {
  const { pieces, job } = journal
  const works = surfaceWork(journal)
  const colours = mainColours(works)
  const keywords = keywordsOf(journal, works, language)
  const [only] = pieces
  const photos = listingPhotos(journal)
  const offer =
    job.askingPriceMinor === undefined
      ? {}
      : {
          offers: {
            '@type': 'Offer',
            price: moneyDigits(job.askingPriceMinor, settings.currency),
            priceCurrency: settings.currency,
            itemCondition: used,
            ...availabilityOf(journal),
            ...(pieces.length > 1 && {
              includesObject: pieces.map((piece) => ({
                '@type': 'TypeAndQuantityNode',
                amountOfThisGood: 1,
                typeOfGood: {
                  '@type': 'Product',
                  name: plainText(piece.name) || plainText(piece.kind),
                  ...aboutPiece(piece),
                },
              })),
            }),
          },
        }
  return {
    '@context': 'https://schema.org',
    '@type': 'Product',
    name: listing.title,
    description: listing.text,
    itemCondition: used,
    ...(pieces.length === 1 && only ? aboutPiece(only) : {}),
    ...(colours.length > 0 && { color: colours.join(', ') }),
    ...(keywords.length > 0 && { keywords: keywords.join(', ') }),
    ...(photos.length > 0 && {
      image: photos.map((photo) => ({
        '@type': 'ImageObject',
        contentUrl: photoAddress(photo.id),
        caption:
          photoWords.get(photo.id) || describePhoto(journal, photo, language),
      })),
    }),
    ...offer,
  }
}

const used = 'https://schema.org/UsedCondition'

function availabilityOf({ job }: Journal): { readonly availability?: string } {
  if (job.soldAt !== undefined)
    return { availability: 'https://schema.org/SoldOut' }
  // An unfinished job promises nothing.
  return job.finishedAt === undefined
    ? {}
    : { availability: 'https://schema.org/InStock' }
}

function aboutPiece(piece: Piece): Readonly<Record<string, JsonLd>> {
  const kind = plainText(piece.kind)
  const material = plainText(piece.material ?? '')
  const sides = [
    ['width', piece.widthMillimetres],
    ['depth', piece.depthMillimetres],
    ['height', piece.heightMillimetres],
  ] as const
  return {
    ...(kind !== '' && { category: kind }),
    ...(material !== '' && { material }),
    ...Object.fromEntries(
      sides.flatMap(([side, millimetres]) =>
        millimetres !== undefined && millimetres > 0
          ? [
              [
                side,
                {
                  '@type': 'QuantitativeValue',
                  value: Number(
                    decimalText(
                      over(fractionOf(millimetres), fractionOf(10)),
                      1,
                    ),
                  ),
                  unitCode: 'CMT',
                },
              ],
            ]
          : [],
      ),
    ),
  }
}
