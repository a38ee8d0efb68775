import { z } from 'zod'
import { costKinds } from '#core/money/job-books'
import { whenRead } from '#services/when-read'

const minor = (limit: number) =>
  z
    .int('Give an amount of money as a number.')
    .min(0, 'An amount of money cannot be less than nothing.')
    .max(limit, 'That is more than these books hold.')
const anyMinor = minor(1_000_000_000)

const minutes = z
  .int('Give the time in whole minutes.')
  .min(0, 'A time cannot be less than nothing.')
  .max(100_000, 'That is more than anybody works on one job.')

const percent = z
  .number('Give the share in percent as a number.')
  .min(0, 'A share cannot be less than nothing.')
  .lt(100, 'A share of the whole price leaves nothing.')

const words = z
  .string('Say what it is.')
  .trim()
  .max(120, 'Keep it to 120 characters.')

/** A new cost: so many at so much each, of one piece or of all. */
export const newCost = z.object({
  kind: z.enum(costKinds, `Choose one of: ${costKinds.join(', ')}.`),
  words: words.default(''),
  quantity: z
    .number('Say how many as a number.')
    .gt(0, 'There is at least something of it.')
    .max(1_000_000)
    .default(1),
  eachMinor: z
    .number('Give the price of one as a number.')
    .min(0, 'A price cannot be less than nothing; free is 0.')
    .max(1_000_000_000),
  piece: z.string().min(1).optional(),
})

/** New work that is no step. */
export const newWork = z.object({
  words: words.min(1, 'Say what it was.'),
  minutes: minutes.gt(0, 'Work takes some time.'),
  piece: z.string().min(1).optional(),
})

/** The hours of a step, corrected; what is left out is as photos or settings tell. */
export const stepHours = z.object({
  step: z.string().min(1),
  workMinutes: minutes.optional(),
  setUpMinutes: minutes.optional(),
  cleanUpMinutes: minutes.optional(),
  otherPieces: z
    .int('Say how many pieces as a whole number.')
    .min(0)
    .max(1000)
    .default(0),
})

/** What a job was sold for, and what selling costs. */
export const saleFacts = z.object({
  priceMinor: anyMinor.optional(),
  feesPaidMinor: anyMinor.optional(),
  taxMinor: anyMinor.optional(),
  feePercent: percent.optional(),
  feeFixedMinor: anyMinor.optional(),
})

/** What an hour and a sale cost. */
export const ratesFacts = z
  .object({
    hourlyMinor: anyMinor.optional(),
    yearlyOverheadMinor: anyMinor.optional(),
    productiveHours: z
      .number('Give the hours of a year as a number.')
      .gt(0, 'A year has some hours of work.')
      .max(8784, 'A year has no more hours.')
      .optional(),
    feePercent: percent.optional(),
    feeFixedMinor: anyMinor.optional(),
    setUpMinutes: minutes.optional(),
    cleanUpMinutes: minutes.optional(),
  })
  .refine(
    (rates) =>
      rates.yearlyOverheadMinor === undefined ||
      rates.productiveHours !== undefined,
    {
      path: ['productiveHours'],
      error: 'Say how many hours of a year the overhead is spread over.',
      when: whenRead('yearlyOverheadMinor', 'productiveHours'),
    },
  )

/** What may be supposed of a job's money. */
export const moneyQuery = z.object({
  hourly: z.coerce
    .number('Give the rate in minor units as a whole number.')
    .pipe(anyMinor)
    .optional()
    .meta({
      description:
        'What an hour is to earn, in minor units, in place of the workshop’s rate.',
    }),
  price: z.coerce
    .number('Give the price in minor units as a whole number.')
    .pipe(anyMinor)
    .optional()
    .meta({ description: 'A price to try, in minor units.' }),
})

export type NewCost = z.output<typeof newCost>
export type NewWork = z.output<typeof newWork>
export type CorrectedHours = z.output<typeof stepHours>
