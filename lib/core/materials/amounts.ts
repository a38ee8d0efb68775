import {
  type Fraction,
  decimalText,
  fractionOf,
  over,
  sumOf,
  times,
} from '#core/money/fraction'
import type { Amount, AmountUnit } from '#core/shelf/product'
import type { Units } from '#core/write-ups/language'

type Dimension = 'volume' | 'mass' | 'length' | 'count'

/**
 * Units that may be added to each other, and how many of the smallest each holds, exactly.
 *
 * Source: NIST Handbook 44, appendix C: US gallon 3785.411784 ml, fluid ounce 1/128 of it, pound 453.59237 g, foot
 *   0.3048 m. Imperial gallon 4546.09 ml, fluid ounce 1/160 of it: UK Units of Measurement Regulations 1995.
 */
const measures: Readonly<
  Record<
    AmountUnit,
    {
      readonly smallest: AmountUnit
      readonly holds: number
      readonly dimension: Dimension
    }
  >
> = {
  l: { smallest: 'ml', holds: 1000, dimension: 'volume' },
  ml: { smallest: 'ml', holds: 1, dimension: 'volume' },
  'us-gal': { smallest: 'ml', holds: 3785.411784, dimension: 'volume' },
  'us-qt': { smallest: 'ml', holds: 946.352946, dimension: 'volume' },
  'us-pt': { smallest: 'ml', holds: 473.176473, dimension: 'volume' },
  'us-fl-oz': { smallest: 'ml', holds: 29.5735295625, dimension: 'volume' },
  'imp-gal': { smallest: 'ml', holds: 4546.09, dimension: 'volume' },
  'imp-pt': { smallest: 'ml', holds: 568.26125, dimension: 'volume' },
  'imp-fl-oz': { smallest: 'ml', holds: 28.4130625, dimension: 'volume' },
  kg: { smallest: 'g', holds: 1000, dimension: 'mass' },
  g: { smallest: 'g', holds: 1, dimension: 'mass' },
  lb: { smallest: 'g', holds: 453.59237, dimension: 'mass' },
  oz: { smallest: 'g', holds: 28.349523125, dimension: 'mass' },
  m: { smallest: 'm', holds: 1, dimension: 'length' },
  yd: { smallest: 'm', holds: 0.9144, dimension: 'length' },
  ft: { smallest: 'm', holds: 0.3048, dimension: 'length' },
  sheet: { smallest: 'sheet', holds: 1, dimension: 'count' },
  roll: { smallest: 'roll', holds: 1, dimension: 'count' },
  piece: { smallest: 'piece', holds: 1, dimension: 'count' },
  can: { smallest: 'can', holds: 1, dimension: 'count' },
}

/** Whether two units measure the same thing: litres and millilitres do, litres and cans do not. */
export function sameMeasure(left: AmountUnit, right: AmountUnit): boolean {
  return measures[left].smallest === measures[right].smallest
}

/** How much it is in the smallest unit of its measure: millilitres, grams, metres or one of what is counted. */
export function inSmallest({ value, unit }: Amount): Fraction {
  return times(fractionOf(value), fractionOf(measures[unit].holds))
}

/**
 * An amount as it is measured out in a workshop: where units are US, metric volumes in fluid ounces, to half an ounce and at
 * least that; anything else as it is.
 */
export function measuredOut(amount: Amount, units: Units): Amount {
  if (units === 'metric' || (amount.unit !== 'ml' && amount.unit !== 'l'))
    return amount
  const halves =
    (2 * amount.value * measures[amount.unit].holds) /
    measures['us-fl-oz'].holds
  return { value: Math.max(1, Math.round(halves)) / 2, unit: 'us-fl-oz' }
}

/**
 * How much of a product it is in litres, exactly.
 *
 * @param densityKilogramsPerLitre of the product; without it a weight has no volume
 * @returns undefined for what is measured in neither volume nor weight
 */
export function litresOf(
  amount: Amount,
  densityKilogramsPerLitre: number | undefined,
): Fraction | undefined {
  const thousands = over(inSmallest(amount), fractionOf(1000))
  switch (measures[amount.unit].dimension) {
    case 'volume':
      return thousands
    case 'mass':
      return densityKilogramsPerLitre === undefined
        ? undefined
        : over(thousands, fractionOf(densityKilogramsPerLitre))
    case 'length':
    case 'count':
      return undefined
  }
}

/**
 * Amounts added up exactly, like with like, in the order each measure first appears.
 *
 * A sum stays in its unit when all its terms have that unit; mixed terms give the smaller unit.
 */
export function sumAmounts(amounts: readonly Amount[]): readonly Amount[] {
  const kinds = [
    ...new Set(amounts.map((amount) => measures[amount.unit].smallest)),
  ]
  return kinds.map((smallest) => {
    const like = amounts.filter(
      (amount) => measures[amount.unit].smallest === smallest,
    )
    const [first] = like
    const unit =
      first && like.every((amount) => amount.unit === first.unit)
        ? first.unit
        : smallest
    const total = over(
      sumOf(like.map(inSmallest)),
      fractionOf(measures[unit].holds),
    )
    return { value: Number(decimalText(total, 12)), unit }
  })
}

/**
 * What share of a pack an amount is, exactly.
 *
 * @param densityKilogramsPerLitre of the product, which brings a weight and a pack sold by volume together
 * @returns undefined when the amount cannot be held against the pack
 * @throws RangeError when the pack holds nothing
 */
export function shareOfPack(
  amount: Amount,
  pack: Amount,
  densityKilogramsPerLitre?: number,
): Fraction | undefined {
  if (sameMeasure(amount.unit, pack.unit)) {
    return over(inSmallest(amount), inSmallest(pack))
  }
  const part = litresOf(amount, densityKilogramsPerLitre)
  const whole = litresOf(pack, densityKilogramsPerLitre)
  return part === undefined || whole === undefined
    ? undefined
    : over(part, whole)
}
