import { z } from 'zod'
import { costKinds } from '#core/money/job-books'
import type { JobMoney, PriceOutcome, PricePoint } from '#core/money/job-money'
import { entryMinor } from '#core/money/job-money'
import { namedAnswer } from '#services/openapi/job-answer'

const minor = z.int().meta({ description: 'In minor units.' })
const arithmetic = z.string().meta({
  description: 'Numbers and signs, in the currency’s main unit.',
})

const pricePoint = z
  .object({
    exact: z.string().meta({
      description: 'In the currency’s main unit, to four decimals.',
    }),
    priceMinor: minor,
    arithmetic,
  })
  .meta({ id: 'PricePoint' })

const outcome = z
  .object({
    priceMinor: minor,
    taxMinor: minor,
    feesMinor: minor,
    costMinor: minor,
    profitMinor: minor.nullable().meta({
      description:
        'After one’s own labour; null while an hour has no rate. In minor units.',
    }),
    marginPercent: z.number().nullable().meta({
      description: 'Profit as a share of the price.',
    }),
    markUpPercent: z.number().nullable().meta({
      description: 'Profit as a share of the costs.',
    }),
    earnedMinor: minor.meta({
      description: 'What is left for one’s own work. In minor units.',
    }),
    hourlyMinor: minor.nullable(),
    arithmetic: z.array(arithmetic),
  })
  .meta({ id: 'PriceOutcome' })

const byPiece = z.array(z.int()).meta({
  description: 'For each of `pieces`, in their order; adds up to the whole.',
})

/** The money of a job, as the interface gives it. */
export const moneyAnswer = z
  .object({
    currency: z.string().meta({ description: 'ISO 4217.' }),
    pieces: z.array(namedAnswer),
    lines: z.array(
      z.object({
        kind: z.enum([
          ...costKinds.filter((kind) => kind !== 'selling'),
          'material',
          'labour',
          'overhead',
        ]),
        words: z.string(),
        arithmetic,
        minor,
        byPiece,
        isReckoned: z.boolean().meta({
          description: 'Whether the amount behind it was not written down.',
        }),
      }),
    ),
    hours: z.object({
      minutes: z.int(),
      byPiece,
      unknownSteps: z.int(),
      steps: z.array(
        z.object({
          step: z.string(),
          basis: z.enum(['corrected', 'span', 'unknown']),
          minutes: z.int().nullable(),
          isLong: z.boolean(),
          byPiece,
        }),
      ),
      sessions: z.array(
        z.object({
          steps: z.array(z.string()),
          setUpMinutes: z.int(),
          cleanUpMinutes: z.int(),
          pieces: z.int(),
          otherPieces: z.int(),
          minutes: z.int(),
          byPiece,
        }),
      ),
      other: z.array(
        z.object({
          id: z.string(),
          words: z.string(),
          minutes: z.int(),
          byPiece,
        }),
      ),
    }),
    costMinor: minor,
    outlayMinor: minor.meta({
      description: 'All costs but one’s own labour. In minor units.',
    }),
    labourMinor: minor.nullable(),
    selling: z.object({
      percent: z.number(),
      fixedMinor: minor,
      costs: z.array(z.object({ id: z.string(), words: z.string(), minor })),
    }),
    byPiece: z.array(
      z.object({
        piece: z.string(),
        costMinor: minor,
        minutes: z.int(),
        floorMinor: minor.nullable(),
      }),
    ),
    outlayBreakEven: pricePoint.nullable(),
    breakEven: pricePoint.nullable(),
    targets: z.array(
      pricePoint.extend({
        marginPercent: z.number(),
        markUpPercent: z.number().nullable(),
      }),
    ),
    asking: outcome.nullable(),
    sold: outcome.nullable(),
    supposed: outcome.nullable(),
    gaps: z.array(
      z.enum([
        'acquisition',
        'hourly rate',
        'overhead',
        'hours',
        'amounts',
        'prices',
      ]),
    ),
  })
  .meta({ id: 'Money' })

/** The money of a job in the form of {@link moneyAnswer}. */
export function moneyToAnswer(
  money: JobMoney,
  currency: string,
): z.input<typeof moneyAnswer> {
  const { hours } = money
  return {
    currency,
    pieces: money.pieces.map(({ id, name }) => ({ id, name })),
    lines: money.lines.map((line) => ({ ...line, byPiece: [...line.byPiece] })),
    hours: {
      minutes: hours.minutes,
      byPiece: [...hours.byPiece],
      unknownSteps: hours.unknownSteps,
      steps: hours.steps.map(({ stepId, ...step }) => ({
        step: stepId,
        ...step,
        byPiece: [...step.byPiece],
      })),
      sessions: hours.sessions.map(({ stepIds, ...session }) => ({
        steps: [...stepIds],
        ...session,
        byPiece: [...session.byPiece],
      })),
      other: hours.other.map((one) => ({ ...one, byPiece: [...one.byPiece] })),
    },
    costMinor: money.costMinor,
    outlayMinor: money.outlayMinor,
    labourMinor: money.labourMinor,
    selling: {
      percent: money.fees.percent,
      fixedMinor: money.fees.fixedMinor,
      costs: money.sellingCosts.map((entry) => ({
        id: entry.id,
        words: entry.words,
        minor: entryMinor(entry),
      })),
    },
    byPiece: money.byPiece.map((own, index) => ({
      piece: money.pieces[index]?.id ?? '',
      ...own,
    })),
    outlayBreakEven: pointToAnswer(money.outlayBreakEven),
    breakEven: pointToAnswer(money.breakEven),
    targets: money.targets.map((target) => ({ ...target })),
    asking: outcomeToAnswer(money.asking),
    sold: outcomeToAnswer(money.sold),
    supposed: outcomeToAnswer(money.supposed),
    gaps: [...money.gaps],
  }
}

function pointToAnswer(
  point: PricePoint | null,
): z.input<typeof pricePoint> | null {
  return point === null ? null : { ...point }
}

function outcomeToAnswer(
  reached: PriceOutcome | null,
): z.input<typeof outcome> | null {
  return reached === null
    ? null
    : { ...reached, arithmetic: [...reached.arithmetic] }
}
