import type { Step } from '#core/journal/journal'
import { decimalText, fractionOf, sumOf, times } from '#core/money/fraction'
import type { Amount } from '#core/shelf/product'

/**
 * How much of its product a step used, as it was written down: the amount, or what the can weighed less afterwards.
 *
 * @returns undefined where neither was
 */
export function loggedAmount({
  amount,
  weighed,
}: Pick<Step, 'amount' | 'weighed'>): Amount | undefined {
  if (amount !== undefined || weighed === undefined) return amount
  const less = sumOf([
    fractionOf(weighed.beforeGrams),
    times(fractionOf(-1), fractionOf(weighed.afterGrams)),
  ])
  return { value: Number(decimalText(less, 6)), unit: 'g' }
}
