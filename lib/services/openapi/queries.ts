import { z } from 'zod'
import { dateOrders } from '#services/air/read-logger-csv'
import { instantText } from '#services/instant-text'

/** Which page of a list is asked for. */
export const pageQuery = z.object({
  after: z
    .string()
    .min(1)
    .optional()
    .meta({ description: 'The `next` of the page before.' }),
  size: z.coerce
    .number('Give the size of a page as a number from 1 to 100.')
    .int('Give the size of a page as a whole number from 1 to 100.')
    .min(1, 'A page has at least one.')
    .max(100, 'A page has at most 100.')
    .default(50)
    .meta({ description: 'How many at most.' }),
})

/** The bench that is asked for: as of a moment, and how much of it. */
export const benchQuery = z.object({
  at: z
    .string()
    // An offset's plus sign that was not escaped arrives as a space.
    .transform((text) => text.replace(' ', '+'))
    .pipe(instantText)
    .optional()
    .meta({
      description: 'As of this instant, ISO 8601 with its offset; else now.',
    }),
  size: z.coerce
    .number('Give the size as a number, from 1.')
    .int('Give the size as a whole number, from 1.')
    .min(1, 'A list has at least one.')
    .optional()
    .meta({ description: 'How many of each list at most; else all.' }),
})

/** How the file of a logger is to be read, where it does not tell itself. */
export const airQuery = z.object({
  order: z
    .enum(dateOrders, `Give order as ${dateOrders.join(' or ')}.`)
    .optional()
    .meta({
      description:
        'Which comes first in dates such as 3/11/2026, for a file that does not tell. It never overrules the file.',
    }),
})
