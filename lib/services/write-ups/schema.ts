import { z } from 'zod'
import { listingLengths } from '#core/write-ups/write-listing'
import { writeUpNames } from '#core/write-ups/write-up'

const limit = (least: number, most: number) =>
  z.coerce
    .number('Give the limit as a whole number.')
    .int('Give the limit as a whole number.')
    .min(least, `Less than ${least} leaves no room for a sentence.`)
    .max(most, `More than ${most} is more than there is to say.`)

/** How long a text may be. */
const textLimit = limit(200, 20_000)

/** How long write-ups may be, and what stands in all of them. */
export const newWriteUpSettings = z.object({
  limits: z.object({
    listingTitle: limit(20, 200),
    listing: textLimit,
    video: textLimit,
    caption: limit(40, 20_000),
  }),
  links: z
    .array(
      z.object({
        label: z.string().trim().max(80, 'Keep the name to 80 characters.'),
        address: z
          .url({
            protocol: /^https?$/,
            error: 'Give whole web addresses, starting with https://',
          })
          .max(2000, 'That address is too long.'),
      }),
    )
    .max(20, 'Keep it to 20 links.'),
  tags: z
    .array(
      z
        .string()
        .trim()
        .min(1)
        .max(40, 'Keep a tag to 40 characters.')
        .regex(/[\p{L}\p{N}]/u, 'A tag needs a letter or a digit.'),
    )
    .max(30, 'Keep it to 30 tags.'),
})

/** The owner's own words for one sentence; empty takes it out. */
export const newSentenceEdit = z.object({
  writeUp: z.enum(writeUpNames),
  sentence: z.string().min(1).max(4000),
  words: z.string().trim().max(2000, 'Keep it to 2000 characters.'),
})
export type NewSentenceEdit = z.output<typeof newSentenceEdit>

/** How much of a write-up is asked for. */
export const writeUpQuery = z.object({
  length: z
    .enum(listingLengths, `Give length as ${listingLengths.join(', ')}.`)
    .optional()
    .meta({ description: 'Of a listing: how much of it; else all.' }),
  limit: limit(0, 100_000).optional().meta({
    description:
      'How long it may be: characters, or bytes of UTF-8 for a video; else what the workshop has set.',
  }),
})

/** Sentences as they are kept beside an edit. */
export const madeOn = z.object({
  text: z.string(),
  facts: z.array(
    z.object({
      about: z.object({
        kind: z.enum(['workshop', 'job', 'piece', 'step', 'product', 'photo']),
        id: z.string(),
      }),
      fact: z.string(),
      value: z.string(),
    }),
  ),
})
