import {
  type Fraction,
  decimalText,
  fractionOf,
  over,
  sumOf,
  times,
} from '#core/money/fraction'
import type { Amount, AmountUnit } from '#core/shelf/product'

/** Units that may be added to each other, and how many of the smallest each holds. */
const measures: Readonly<
  Record<AmountUnit, { readonly smallest: AmountUnit; readonly holds: number }>
> = {
  l: { smallest: 'ml', holds: 1000 },
  ml: { smallest: 'ml', holds: 1 },
  kg: { smallest: 'g', holds: 1000 },
  g: { smallest: 'g', holds: 1 },
  m: { smallest: 'm', holds: 1 },
  sheet: { smallest: 'sheet', holds: 1 },
  roll: { smallest: 'roll', holds: 1 },
  piece: { smallest: 'piece', holds: 1 },
  can: { smallest: 'can', holds: 1 },
}

/** Whether two units measure the same thing: litres and millilitres do, litres and cans do not. */
export function sameMeasure(left: AmountUnit, right: AmountUnit): boolean {
  return measures[left].smallest === measures[right].smallest
}

function inSmallest({ value, unit }: Amount): Fraction {
  return times(fractionOf(value), fractionOf(measures[unit].holds))
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
 * What share of a pack these amounts are, exactly; amounts in another measure than the pack's are left out.
 *
 * @throws RangeError when the pack holds nothing
 */
export function shareOfPack(
  amounts: readonly Amount[],
  pack: Amount,
): Fraction {
  return over(
    sumOf(
      amounts
        .filter((amount) => sameMeasure(amount.unit, pack.unit))
        .map(inSmallest),
    ),
    inSmallest(pack),
  )
}
