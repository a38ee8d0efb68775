import { surfaceAreas } from '#core/film/surface-area'
import type { Journal } from '#core/journal/journal'
import { litresOf } from '#core/materials/amounts'
import { packShare } from '#core/materials/list-materials'
import {
  type ProductUse,
  pieceWeights,
  productUses,
} from '#core/materials/product-uses'
import { allocate } from '#core/money/allocate'
import { moneyDigits } from '#core/money/format-money'
import {
  type Fraction,
  decimalText,
  fractionOf,
  over,
  roundHalfAway,
  sumOf,
  times,
} from '#core/money/fraction'
import {
  type CostEntry,
  type CostKind,
  type JobBooks,
  type Rates,
  costKinds,
} from '#core/money/job-books'
import { minorUnitDigits } from '#core/money/minor-unit-digits'
import {
  type SellingFees,
  breakEven,
  feesAt,
  marginOf,
  markUpOf,
  priceFloor,
  priceForMargin,
} from '#core/money/price'
import { type WorkHours, workHours } from '#core/money/work-hours'
import type { Product } from '#core/shelf/product'
import { minutesPerHour } from '#core/units'

/** One line of what a job cost. Amounts in minor units, rounded once. */
export type MoneyLine = {
  readonly kind:
    Exclude<CostKind, 'selling'> | 'material' | 'labour' | 'overhead'
  /** The owner's words or the product's name; empty for labour and overhead, which there is one of. */
  readonly words: string
  /** Numbers and signs alone: `24 × 0.725 = 17.40`. */
  readonly arithmetic: string
  readonly minor: number
  /** For each piece of the job, in their order; they add up to `minor`. */
  readonly byPiece: readonly number[]
  /** Whether the amount behind it was reckoned and not written down. */
  readonly isReckoned: boolean
}

/** A price from which a job earns. */
export type PricePoint = {
  /** Exact, to four decimals of the currency's main unit. */
  readonly exact: string
  /** In whole minor units: a floor rounded up, a target to the nearest. */
  readonly priceMinor: number
  /** Empty where the price is the costs and nothing else. */
  readonly arithmetic: string
}

/** What a price brings. All in minor units. */
export type PriceOutcome = {
  readonly priceMinor: number
  /** Tax within the price that is handed on. */
  readonly taxMinor: number
  readonly feesMinor: number
  readonly costMinor: number
  /** Price less tax, fees and all costs, one's own labour among them; null while an hour has no rate. */
  readonly profitMinor: number | null
  /** Profit as a share of the price, in percent to two decimals. */
  readonly marginPercent: number | null
  /** Profit as a share of the costs, in percent to two decimals. */
  readonly markUpPercent: number | null
  /** What is left for one's own work: profit with the labour put back. */
  readonly earnedMinor: number
  /** That, for each hour; null without hours. */
  readonly hourlyMinor: number | null
  readonly arithmetic: readonly string[]
}

/** What must be written down before the sums are whole. */
export type MoneyGap =
  'acquisition' | 'hourly rate' | 'overhead' | 'hours' | 'amounts' | 'prices'

/** The gaps that leave costs out: with one of them, costs are at least what they are and results at most. */
export const costGaps: readonly MoneyGap[] = [
  'acquisition',
  'overhead',
  'amounts',
  'prices',
]

/** All the money of a job. */
export type JobMoney = {
  readonly pieces: readonly { readonly id: string; readonly name: string }[]
  readonly lines: readonly MoneyLine[]
  readonly hours: WorkHours
  /** The lines added up. */
  readonly costMinor: number
  /** Without one's own labour. */
  readonly outlayMinor: number
  readonly labourMinor: number | null
  readonly fees: SellingFees
  /** The part of the fixed fees that was written down as costs of selling. */
  readonly sellingCosts: readonly CostEntry[]
  readonly byPiece: readonly {
    readonly costMinor: number
    readonly minutes: number
    /** Its share of the lowest price, by its costs. */
    readonly floorMinor: number | null
  }[]
  /** The price at which everything is paid but one's own labour. */
  readonly outlayBreakEven: PricePoint | null
  /** The lowest price at which one's own hours earn their rate too; null while they have none. */
  readonly breakEven: PricePoint | null
  readonly targets: readonly (PricePoint & {
    readonly marginPercent: number
    readonly markUpPercent: number | null
  })[]
  readonly asking: PriceOutcome | null
  readonly sold: PriceOutcome | null
  /** At a price that was asked about. */
  readonly supposed: PriceOutcome | null
  readonly gaps: readonly MoneyGap[]
}

const targetMargins = [20, 30, 40, 50] as const

/**
 * What a job cost, what it must be sold for and what it earned, with the arithmetic.
 *
 * Each line is rounded once, half away from zero, and sums are sums of the printed lines, so that a reader with a pencil
 * finds the same. Money is in minor units of the one currency.
 *
 * @param suppose an hourly rate in place of the workshop's, and a price to try, in minor units
 */
export function jobMoney(
  journal: Journal,
  books: JobBooks,
  rates: Rates,
  currency: string,
  suppose: { readonly hourlyMinor?: number; readonly priceMinor?: number } = {},
): JobMoney {
  const hours = workHours(journal, books, rates)
  const hourlyMinor = suppose.hourlyMinor ?? rates.hourlyMinor
  const uses = productUses(journal)
  const labour =
    hourlyMinor === undefined ? [] : [labourLine(hours, hourlyMinor, currency)]
  const lines = [
    ...costKinds.flatMap((kind) =>
      books.costs
        .filter((entry) => entry.kind === kind)
        .flatMap((entry) => costLine(entry, journal, currency)),
    ),
    ...materialLines(journal, uses, currency),
    ...overheadLine(hours, rates, currency),
    ...labour,
  ]
  const costMinor = lines.reduce((sum, line) => sum + line.minor, 0)
  const labourMinor = labour[0]?.minor ?? null
  const outlayMinor = costMinor - (labourMinor ?? 0)
  const sellingCosts = books.costs.filter(({ kind }) => kind === 'selling')
  const sellingMinor = sellingCosts.reduce(
    (sum, entry) => sum + entryMinor(entry),
    0,
  )
  const charged: SellingFees = {
    percent: books.sale.feePercent ?? rates.feePercent ?? 0,
    fixedMinor: books.sale.feeFixedMinor ?? rates.feeFixedMinor ?? 0,
  }
  const fees = { ...charged, fixedMinor: charged.fixedMinor + sellingMinor }
  const ledger: Ledger = {
    costMinor,
    labourMinor,
    minutes: hours.minutes,
    fees,
    currency,
  }
  const floor =
    labourMinor === null ? null : breakEvenPoint(costMinor, fees, currency)
  const costs = journal.pieces.map((_, index) =>
    lines.reduce((sum, line) => sum + (line.byPiece[index] ?? 0), 0),
  )
  const floors =
    floor === null
      ? null
      : allocate(
          floor.priceMinor,
          costs.map((cost) => fractionOf(Math.max(0, cost))),
        )
  const { askingPriceMinor } = journal.job
  const { priceMinor, feesPaidMinor, taxMinor } = books.sale
  return {
    pieces: journal.pieces.map(({ id, name }) => ({ id, name })),
    lines,
    hours,
    costMinor,
    outlayMinor,
    labourMinor,
    fees,
    sellingCosts,
    byPiece: costs.map((cost, index) => ({
      costMinor: cost,
      minutes: hours.byPiece[index] ?? 0,
      floorMinor: floors?.[index] ?? null,
    })),
    outlayBreakEven: breakEvenPoint(outlayMinor, fees, currency),
    breakEven: floor,
    targets: labourMinor === null ? [] : targetsOf(costMinor, fees, currency),
    asking:
      askingPriceMinor === undefined
        ? null
        : outcomeAt(askingPriceMinor, ledger),
    sold:
      priceMinor === undefined
        ? null
        : outcomeAt(priceMinor, ledger, {
            taxMinor: taxMinor ?? 0,
            ...(feesPaidMinor !== undefined && {
              feesMinor: feesPaidMinor + sellingMinor,
            }),
          }),
    supposed:
      suppose.priceMinor === undefined
        ? null
        : outcomeAt(suppose.priceMinor, ledger),
    gaps: gapsOf(books, rates, hours, uses, hourlyMinor),
  }
}

function costLine(
  entry: CostEntry,
  { pieces }: Journal,
  currency: string,
): readonly MoneyLine[] {
  const { kind, words, quantity, eachMinor, pieceId } = entry
  if (kind === 'selling') return []
  const minor = entryMinor(entry)
  return [
    {
      kind,
      words,
      arithmetic:
        quantity === 1
          ? moneyDigits(minor, currency)
          : `${decimalText(fractionOf(quantity), 6)} × ${priceText(fractionOf(eachMinor), currency, 6)} = ${moneyDigits(minor, currency)}`,
      minor,
      byPiece: allocate(
        minor,
        pieces.map((piece) =>
          fractionOf(pieceId === undefined || pieceId === piece.id ? 1 : 0),
        ),
      ),
      isReckoned: false,
    },
  ]
}

/** What a cost comes to in minor units: so many at so much each, rounded once, half away from zero. */
export function entryMinor({
  quantity,
  eachMinor,
}: Pick<CostEntry, 'quantity' | 'eachMinor'>): number {
  return Number(
    roundHalfAway(times(fractionOf(quantity), fractionOf(eachMinor))),
  )
}

/** For each product a line of what was written down and one of what was reckoned, where it has a price. */
function materialLines(
  { pieces }: Journal,
  uses: readonly ProductUse[],
  currency: string,
): readonly MoneyLine[] {
  const areas = surfaceAreas(pieces)
  const products = [...new Set(uses.map(({ product }) => product))]
  return products.flatMap((product) => {
    const own = uses.filter((use) => use.product === product)
    return [false, true].flatMap((isReckoned): readonly MoneyLine[] => {
      const shares = own.flatMap((use) => {
        const share = isReckoned
          ? reckonedShare(use, product)
          : use.logged && packShare(use.logged, product)
        return share === undefined ? [] : [{ share, step: use.step }]
      })
      if (product.pack === undefined || shares.length === 0) return []
      const { priceMinor } = product.pack
      const total = sumOf(shares.map(({ share }) => share))
      const minor = Number(roundHalfAway(times(total, fractionOf(priceMinor))))
      const weights = shares.map(({ share, step }) => {
        const by = pieceWeights(step, pieces, areas)
        const whole = sumOf(by)
        return by.map((weight) =>
          whole.numerator === 0n
            ? fractionOf(0)
            : times(share, over(weight, whole)),
        )
      })
      return [
        {
          kind: 'material',
          words: product.name,
          arithmetic: packArithmetic(total, priceMinor, minor, currency),
          minor,
          byPiece: allocate(
            minor,
            pieces.map((_, index) =>
              sumOf(weights.flatMap((by) => by[index] ?? [])),
            ),
          ),
          isReckoned,
        },
      ]
    })
  })
}

/** How much of a pack at its price, in the fewest decimals that come to the same. */
function packArithmetic(
  share: Fraction,
  priceMinor: number,
  minor: number,
  currency: string,
): string {
  const digits = moneyDigits(minor, currency)
  if (share.numerator === share.denominator) return digits
  const told = [0, 1, 2, 3, 4, 5, 6]
    .map((decimals) => decimalText(share, decimals))
    .find(
      (text) =>
        Number(
          roundHalfAway(
            times(fractionOf(Number(text)), fractionOf(priceMinor)),
          ),
        ) === minor,
    )
  return `${told ?? decimalText(share, 6)} × ${moneyDigits(priceMinor, currency)} = ${digits}`
}

function reckonedShare(
  { estimate }: ProductUse,
  { pack, label }: Product,
): Fraction | undefined {
  if (estimate === undefined || pack === undefined) return undefined
  const packLitres = litresOf(pack.amount, label.densityKilogramsPerLitre)
  return packLitres === undefined || packLitres.numerator <= 0n
    ? undefined
    : over(estimate.litres, packLitres)
}

function labourLine(
  hours: WorkHours,
  hourlyMinor: number,
  currency: string,
): MoneyLine {
  return hourLine('labour', hours, fractionOf(hourlyMinor), currency)
}

function overheadLine(
  hours: WorkHours,
  { yearlyOverheadMinor, productiveHours }: Rates,
  currency: string,
): readonly MoneyLine[] {
  if (
    yearlyOverheadMinor === undefined ||
    productiveHours === undefined ||
    !(productiveHours > 0)
  ) {
    return []
  }
  const hourly = over(
    fractionOf(yearlyOverheadMinor),
    fractionOf(productiveHours),
  )
  return [hourLine('overhead', hours, hourly, currency)]
}

function hourLine(
  kind: 'labour' | 'overhead',
  { minutes, byPiece }: WorkHours,
  hourlyMinor: Fraction,
  currency: string,
): MoneyLine {
  const minor = Number(
    roundHalfAway(
      over(times(fractionOf(minutes), hourlyMinor), fractionOf(minutesPerHour)),
    ),
  )
  return {
    kind,
    words: '',
    arithmetic: `${hoursText(minutes)} h × ${priceText(hourlyMinor, currency, 4)} = ${moneyDigits(minor, currency)}`,
    minor,
    byPiece: allocate(
      minor,
      byPiece.map((own) => fractionOf(own)),
    ),
    isReckoned: false,
  }
}

/** Whole minutes in hours, to four decimals. */
function hoursText(minutes: number): string {
  return decimalText(over(fractionOf(minutes), fractionOf(minutesPerHour)), 4)
}

/** Minor units in the main unit of a currency, with at least its decimals. */
function priceText(
  minor: Fraction,
  currency: string,
  maxDecimals: number,
): string {
  const digits = minorUnitDigits(currency)
  const text = decimalText(
    over(minor, fractionOf(10 ** digits)),
    Math.max(digits, maxDecimals),
  )
  const [whole = '', decimals = ''] = text.split('.')
  return digits === 0 && decimals === ''
    ? whole
    : `${whole}.${decimals.padEnd(digits, '0')}`
}

function breakEvenPoint(
  costMinor: number,
  fees: SellingFees,
  currency: string,
): PricePoint | null {
  const exact = breakEven(costMinor, fees)
  if (exact === undefined) return null
  return {
    exact: priceText(exact, currency, 4),
    priceMinor: priceFloor(exact),
    arithmetic: priceArithmetic(costMinor, fees, 0, exact, currency),
  }
}

/** Costs and fees over what is left of the price; empty where there is nothing to reckon. What is nothing is left out. */
function priceArithmetic(
  costMinor: number,
  { fixedMinor, percent }: SellingFees,
  marginPercent: number,
  exact: Fraction,
  currency: string,
): string {
  const digits = (minor: number) => moneyDigits(minor, currency)
  const shares = [percent, marginPercent].filter((share) => share !== 0)
  if (fixedMinor === 0 && shares.length === 0) return ''
  const sum =
    fixedMinor === 0
      ? digits(costMinor)
      : `${digits(costMinor)} + ${digits(fixedMinor)}`
  const over =
    shares.length === 0
      ? sum
      : `${fixedMinor === 0 ? sum : `(${sum})`} ÷ (${['1', ...shares.map(shareText)].join(' − ')})`
  return `${over} = ${priceText(exact, currency, 4)}`
}

function targetsOf(
  costMinor: number,
  fees: SellingFees,
  currency: string,
): JobMoney['targets'] {
  return targetMargins.flatMap((marginPercent) => {
    const exact = priceForMargin(costMinor, fees, marginPercent)
    if (exact === undefined) return []
    const priceMinor = Number(roundHalfAway(exact))
    const profitMinor = priceMinor - feesAt(priceMinor, fees) - costMinor
    return [
      {
        marginPercent,
        markUpPercent: percentOf(markUpOf(profitMinor, costMinor)),
        exact: priceText(exact, currency, 4),
        priceMinor,
        arithmetic: priceArithmetic(
          costMinor,
          fees,
          marginPercent,
          exact,
          currency,
        ),
      },
    ]
  })
}

function shareText(percent: number): string {
  return decimalText(over(fractionOf(percent), fractionOf(100)), 6)
}

function percentOf(share: Fraction | undefined): number | null {
  return share === undefined
    ? null
    : Number(decimalText(times(share, fractionOf(100)), 2))
}

type Ledger = {
  readonly costMinor: number
  readonly labourMinor: number | null
  readonly minutes: number
  readonly fees: SellingFees
  readonly currency: string
}

function outcomeAt(
  priceMinor: number,
  { costMinor, labourMinor, minutes, fees, currency }: Ledger,
  known: { readonly taxMinor?: number; readonly feesMinor?: number } = {},
): PriceOutcome {
  const feesMinor = known.feesMinor ?? feesAt(priceMinor, fees)
  const taxMinor = known.taxMinor ?? 0
  const outlayMinor = costMinor - (labourMinor ?? 0)
  const earnedMinor = priceMinor - taxMinor - feesMinor - outlayMinor
  const profitMinor = labourMinor === null ? null : earnedMinor - labourMinor
  const hourly =
    minutes === 0
      ? undefined
      : over(
          times(fractionOf(earnedMinor), fractionOf(minutesPerHour)),
          fractionOf(minutes),
        )
  const digits = (minor: number) => moneyDigits(minor, currency)
  const less = (...minors: readonly number[]) =>
    [priceMinor, ...minors.filter((minor) => minor !== 0)]
      .map(digits)
      .join(' − ')
  return {
    priceMinor,
    taxMinor,
    feesMinor,
    costMinor,
    profitMinor,
    marginPercent:
      profitMinor === null
        ? null
        : percentOf(marginOf(profitMinor, priceMinor)),
    markUpPercent:
      profitMinor === null ? null : percentOf(markUpOf(profitMinor, costMinor)),
    earnedMinor,
    hourlyMinor: hourly === undefined ? null : Number(roundHalfAway(hourly)),
    arithmetic: [
      ...(profitMinor === null
        ? []
        : [`${less(taxMinor, feesMinor, costMinor)} = ${digits(profitMinor)}`]),
      `${less(taxMinor, feesMinor, outlayMinor)} = ${digits(earnedMinor)}`,
      ...(hourly === undefined
        ? []
        : [
            `${digits(earnedMinor)} ÷ ${hoursText(minutes)} h = ${digits(Number(roundHalfAway(hourly)))}`,
          ]),
    ],
  }
}

function gapsOf(
  books: JobBooks,
  rates: Rates,
  hours: WorkHours,
  uses: readonly ProductUse[],
  hourlyMinor: number | undefined,
): readonly MoneyGap[] {
  const isKnown = ({ logged, estimate }: ProductUse) =>
    logged !== undefined || estimate !== undefined
  return [
    ...(books.costs.some(({ kind }) => kind === 'acquisition')
      ? []
      : (['acquisition'] as const)),
    ...(hourlyMinor === undefined ? (['hourly rate'] as const) : []),
    ...(rates.yearlyOverheadMinor === undefined ||
    rates.productiveHours === undefined
      ? (['overhead'] as const)
      : []),
    ...(hours.unknownSteps > 0 ? (['hours'] as const) : []),
    ...(uses.every(isKnown) ? [] : (['amounts'] as const)),
    ...(uses.some(
      (use) =>
        isKnown(use) &&
        (use.logged === undefined
          ? reckonedShare(use, use.product)
          : packShare(use.logged, use.product)) === undefined,
    )
      ? (['prices'] as const)
      : []),
  ]
}
