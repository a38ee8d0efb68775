import {
  type Fraction,
  fractionOf,
  over,
  sumOf,
  times,
} from '#core/money/fraction'

/**
 * Shares out a whole number by weights so that the parts add up to it: each gets its share rounded down, and what is left
 * goes one by one to those who lost most by that, the first first.
 *
 * @param total whole, such as minor units or minutes; below zero it is shared out as its size is
 * @param weights 0 or more each; where all are zero the parts are as equal as can be
 * @returns a part for each weight, in their order; none for no weights
 * @throws RangeError when `total` is no safe whole number or a weight is below zero
 * Source: the method of largest remainders (Hamilton).
 */
export function allocate(
  total: number,
  weights: readonly Fraction[],
): readonly number[] {
  if (!Number.isSafeInteger(total)) {
    throw new RangeError(`allocate: expected a whole number, got ${total}`)
  }
  if (weights.some((weight) => weight.numerator < 0n)) {
    throw new RangeError('allocate: expected weights of 0 or more, got less')
  }
  if (total < 0) {
    // Adding zero turns -0 into 0.
    return allocate(-total, weights).map((part) => -part + 0)
  }
  const sum = sumOf(weights)
  const even = sum.numerator === 0n
  const whole = even ? fractionOf(weights.length) : sum
  const parts = weights.map((weight, index) => {
    const exact = over(
      times(fractionOf(total), even ? fractionOf(1) : weight),
      whole,
    )
    const floor = exact.numerator / exact.denominator
    return {
      index,
      floor: Number(floor),
      lost: {
        numerator: exact.numerator - floor * exact.denominator,
        denominator: exact.denominator,
      },
    }
  })
  const left = total - parts.reduce((all, part) => all + part.floor, 0)
  const next = new Set(
    parts
      .toSorted((one, other) => compare(other.lost, one.lost))
      .slice(0, left)
      .map((part) => part.index),
  )
  return parts.map(({ index, floor }) => floor + (next.has(index) ? 1 : 0))
}

function compare(one: Fraction, other: Fraction): number {
  const apart =
    one.numerator * other.denominator - other.numerator * one.denominator
  return apart < 0n ? -1 : apart > 0n ? 1 : 0
}
