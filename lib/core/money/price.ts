import {
  type Fraction,
  fractionOf,
  over,
  roundHalfAway,
  sumOf,
  times,
} from '#core/money/fraction'

/** What selling costs: a share of the price and what is the same at any price. */
export type SellingFees = {
  /** Of the price, 0 to below 100. */
  readonly percent: number
  /** Minor units. */
  readonly fixedMinor: number
}

const one = fractionOf(1)

function minus(left: Fraction, right: Fraction): Fraction {
  return sumOf([left, times(fractionOf(-1), right)])
}

function share(percent: number): Fraction {
  return over(fractionOf(percent), fractionOf(100))
}

/**
 * The price at which nothing is earned or lost, exactly, in minor units: (C + k) / (1 - p).
 *
 * @param costMinor all costs that do not depend on the price
 * @returns undefined where the fees take all of the price
 * Source: the definition of profit, P (1 - p) - k - C, set to nothing.
 */
export function breakEven(
  costMinor: number,
  fees: SellingFees,
): Fraction | undefined {
  return priceKeeping(fractionOf(costMinor + fees.fixedMinor), fees, 0)
}

/**
 * The price of which this share is profit, exactly: (C + k) / (1 - p - m). A margin is a share of the price.
 *
 * @param marginPercent of the price, below 100
 * @returns undefined where margin and fees together take all of the price: no price does that
 */
export function priceForMargin(
  costMinor: number,
  fees: SellingFees,
  marginPercent: number,
): Fraction | undefined {
  return priceKeeping(
    fractionOf(costMinor + fees.fixedMinor),
    fees,
    marginPercent,
  )
}

/**
 * The price with this profit on top of the costs, exactly: (C (1 + u) + k) / (1 - p). A mark-up is a share of the costs.
 *
 * @param markUpPercent of the costs
 * @returns undefined where the fees take all of the price
 */
export function priceForMarkUp(
  costMinor: number,
  fees: SellingFees,
  markUpPercent: number,
): Fraction | undefined {
  const marked = times(
    fractionOf(costMinor),
    sumOf([one, share(markUpPercent)]),
  )
  return priceKeeping(sumOf([marked, fractionOf(fees.fixedMinor)]), fees, 0)
}

function priceKeeping(
  needed: Fraction,
  { percent }: SellingFees,
  marginPercent: number,
): Fraction | undefined {
  const kept = minus(one, sumOf([share(percent), share(marginPercent)]))
  return kept.numerator <= 0n ? undefined : over(needed, kept)
}

/** The lowest price in whole minor units that is not below: a floor is rounded up, or it would lose. */
export function priceFloor({ numerator, denominator }: Fraction): number {
  return numerator <= 0n
    ? 0
    : Number((numerator + denominator - 1n) / denominator)
}

/** What is earned at a price, exactly, in minor units: P (1 - p) - k - C. */
export function profitAt(
  price: Fraction,
  costMinor: number,
  { percent, fixedMinor }: SellingFees,
): Fraction {
  return minus(
    times(price, minus(one, share(percent))),
    fractionOf(costMinor + fixedMinor),
  )
}

/** What is charged for selling at a price, in minor units, rounded once, half away from zero. */
export function feesAt(
  priceMinor: number,
  { percent, fixedMinor }: SellingFees,
): number {
  return (
    Number(roundHalfAway(times(fractionOf(priceMinor), share(percent)))) +
    fixedMinor
  )
}

/** A profit as a share of the price it was made at, exactly; undefined at no price. */
export function marginOf(
  profitMinor: number,
  priceMinor: number,
): Fraction | undefined {
  return priceMinor === 0
    ? undefined
    : over(fractionOf(profitMinor), fractionOf(priceMinor))
}

/** A profit as a share of the costs it was made on, exactly; undefined without costs. */
export function markUpOf(
  profitMinor: number,
  costMinor: number,
): Fraction | undefined {
  return costMinor === 0
    ? undefined
    : over(fractionOf(profitMinor), fractionOf(costMinor))
}
