import { z } from 'zod'
import { colourNames } from '#core/colour/colour-names'
import type { PieceChoice } from '#core/portfolio/show-piece'
import { type ShownPiece, shownFinishes } from '#core/portfolio/shown-piece'

const ids = z.array(z.string().max(100)).max(500, 'That is too much to show.')

/** What the owner wants to be seen of a piece. */
export const pieceChoice = z.object({
  title: z
    .string('Give it a title.')
    .trim()
    .min(1, 'Give it a title.')
    .max(120, 'Keep the title to 120 characters.'),
  story: z.string().trim().max(8000, 'Keep the story to 8000 characters.'),
  pairs: ids,
  photos: ids,
  steps: ids,
  finish: z.boolean(),
  materials: z.boolean(),
  size: z.boolean(),
  price: z.enum(['none', 'asking', 'sold'], 'Choose what to say of the price.'),
  contact: z.boolean(),
  colours: z.array(z.enum(colourNames)).max(colourNames.length).exactOptional(),
}) satisfies z.ZodType<PieceChoice>

const notAnAddress =
  'Give a whole web address, such as https://alder-yard.example/portfolio'

/** What stands on every page of the portfolio; empty where there is nothing. */
export const portfolioSettings = z.object({
  publicAddress: z
    .union([
      z.literal(''),
      z
        .url({ protocol: /^https?$/, error: notAnAddress })
        .max(500, 'That address is too long.')
        .refine(
          (address) => !/[?#]/.test(address),
          'Leave out what follows ? or #.',
        )
        // `file:` and credentials aside, what a browser makes of it is what visitors must be sent to.
        .transform((address) => new URL(address).href.replace(/\/+$/, '')),
    ])
    .default(''),
  introduction: z.string().trim().max(2000, 'Keep it to 2000 characters.'),
  contact: z.string().trim().max(500, 'Keep it to 500 characters.'),
})
export type NewPortfolioSettings = z.output<typeof portfolioSettings>

const picture = z.object({
  name: z.string(),
  words: z.string(),
  width: z.number(),
  height: z.number(),
})

const shownPiece = z.object({
  title: z.string(),
  kind: z.string(),
  story: z.array(z.string()),
  pairs: z.array(
    z.object({
      name: z.string(),
      before: picture,
      after: picture,
      aligned: z.boolean(),
    }),
  ),
  gallery: z.array(picture),
  steps: z.array(
    z.object({ words: z.string(), picture: picture.exactOptional() }),
  ),
  finish: z.string().exactOptional(),
  finishes: z.array(z.enum(shownFinishes)),
  colours: z.array(z.enum(colourNames)),
  materials: z.array(z.string()),
  size: z.string().exactOptional(),
  price: z
    .discriminatedUnion('state', [
      z.object({
        state: z.literal('asking'),
        minor: z.number(),
        currency: z.string(),
      }),
      z.object({ state: z.literal('sold') }),
    ])
    .exactOptional(),
  contact: z.boolean(),
}) satisfies z.ZodType<ShownPiece>

const photoSource = z.object({
  /** Its id: once it is in the bin, nothing made from it is shown any more. */
  photo: z.string(),
  sha256: z.string(),
  quarterTurns: z.number(),
})

const size = z.object({ width: z.number(), height: z.number() })
const alignedSource = photoSource.extend({ size })

/** Nine numbers, row after row. */
const homography = z.tuple([
  z.number(),
  z.number(),
  z.number(),
  z.number(),
  z.number(),
  z.number(),
  z.number(),
  z.number(),
  z.number(),
])

/** What a picture is made from; parsed, its members stand in one order, so that its hash is one. It is kept beside what visitors see and never sent to them. */
export const pictureSource = z.discriminatedUnion('of', [
  photoSource.extend({ of: z.literal('photo') }),
  z.object({
    of: z.literal('pair'),
    side: z.enum(['before', 'after']),
    before: alignedSource,
    after: alignedSource,
    homography,
  }),
])
export type PictureSource = z.output<typeof pictureSource>

/** What is out of a piece, as it is kept. */
export const publishedContent = z.object({
  shown: shownPiece,
  /** By the names of the pictures. */
  sources: z.record(z.string(), pictureSource),
})
export type PublishedContent = {
  readonly shown: ShownPiece
  readonly sources: Readonly<Record<string, PictureSource>>
}
