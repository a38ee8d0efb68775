import type { Instant } from '#core/units'
import type { ColourName } from '#core/colour/colour-names'

/** A picture that visitors see. */
export type ShownPicture = {
  /** Part of its file's name: lower-case letters, digits and hyphens; no two of a piece are the same. */
  readonly name: string
  /** What it shows, for those who do not see it. */
  readonly words: string
  /** Pixels of its larger file. */
  readonly width: number
  readonly height: number
}

/** What finishes visitors look for. */
export const shownFinishes = [
  'painted',
  'stained',
  'glazed',
  'clear coated',
  'waxed',
] as const
export type ShownFinish = (typeof shownFinishes)[number]

/** All that visitors are told of a piece, as its owner chose. It holds nothing else, so nothing else can leave. */
export type ShownPiece = {
  readonly title: string
  /** What it is: sideboard, blanket box. */
  readonly kind: string
  /** Paragraphs. */
  readonly story: readonly string[]
  readonly pairs: readonly {
    /** The view, such as front. */
    readonly name: string
    readonly before: ShownPicture
    readonly after: ShownPicture
    /** Whether the two lie on each other, so that one can be wiped away. */
    readonly aligned: boolean
  }[]
  readonly gallery: readonly ShownPicture[]
  readonly steps: readonly {
    readonly words: string
    readonly picture?: ShownPicture
  }[]
  /** A sentence on how it is finished. */
  readonly finish?: string
  readonly finishes: readonly ShownFinish[]
  readonly colours: readonly ColourName[]
  /** One product to a line. */
  readonly materials: readonly string[]
  readonly size?: string
  readonly price?:
    | {
        readonly state: 'asking'
        readonly minor: number
        /** ISO 4217. */
        readonly currency: string
      }
    | { readonly state: 'sold' }
  /** Whether the page says how to reach the workshop. */
  readonly contact: boolean
}

/** A piece that is out, with its address and when it came out and was changed. */
export type PublishedPiece = {
  /** Its part of the address. */
  readonly slug: string
  /** An id of its page alone, a UUID, for readers of the feed. */
  readonly id: string
  readonly publishedAt: Instant
  readonly changedAt: Instant
  readonly shown: ShownPiece
}

/** What stands on every page. */
export type PortfolioHead = {
  /** The name of the workshop. */
  readonly name: string
  readonly introduction: readonly string[]
  /** How to reach it, one way to a line. */
  readonly contact: readonly string[]
  /** Where the portfolio is to be found by anyone, without a slash at its end; absent: nowhere yet. */
  readonly publicAddress?: string
}

/** The two sizes of each picture, by their longer side in pixels. */
export const pictureSides = [720, 1440] as const
export type PictureSide = (typeof pictureSides)[number]

/** The name of a picture's file. */
export function pictureFile(name: string, side: PictureSide): string {
  return `${name}-${side}.webp`
}

/** The picture that is shown where a page is linked to: its size in pixels and the name of its file. */
export const sharedPicture = {
  width: 1200,
  height: 630,
  file: 'shared.jpg',
} as const

/** The picture that stands for the piece: of the first pair the after, else the first of the gallery. */
export function leadPicture({
  pairs,
  gallery,
}: ShownPiece): ShownPicture | undefined {
  return pairs[0]?.after ?? gallery[0]
}

/** All pictures of a piece, each once. */
export function picturesOf({
  pairs,
  gallery,
  steps,
}: ShownPiece): readonly ShownPicture[] {
  return [
    ...pairs.flatMap(({ before, after }) => [before, after]),
    ...gallery,
    ...steps.flatMap(({ picture }) => picture ?? []),
  ]
}

/** The piece without some of its pictures: of a pair both go. */
export function withoutPictures(
  shown: ShownPiece,
  gone: ReadonlySet<string>,
): ShownPiece {
  const isThere = ({ name }: ShownPicture) => !gone.has(name)
  return {
    ...shown,
    pairs: shown.pairs.filter(
      ({ before, after }) => isThere(before) && isThere(after),
    ),
    gallery: shown.gallery.filter(isThere),
    steps: shown.steps.map(({ words, picture }) => ({
      words,
      ...(picture && isThere(picture) && { picture }),
    })),
  }
}
