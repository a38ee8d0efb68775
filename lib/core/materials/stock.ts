import { shareOfPack } from '#core/materials/amounts'
import {
  type Fraction,
  decimalText,
  fractionOf,
  sumOf,
  times,
} from '#core/money/fraction'
import type { Amount, Product } from '#core/shelf/product'

/** What is left of a product. */
export type Stock = {
  readonly productId: string
  /** In the unit of the pack, to six decimals; below zero when more was used than bought. */
  readonly left: Amount
  readonly packsBought: number
  /** Whether the number of packs was not written down: then no more are counted than the use needed. */
  readonly packsSupposed: boolean
  /** Uses whose amount nobody knows: what is left is less by them. */
  readonly unmeasuredUses: number
  /** Whether what is left would not do for this job once more, and should be bought. */
  readonly buyAgain: boolean
}

/**
 * What is left of a product after all its uses in all jobs, by volume, weight or count, exactly.
 *
 * @param used every amount that was written down or reckoned, of all jobs
 * @param unmeasuredUses how many uses there were besides
 * @param usedHere the amounts of the job that is looked at
 * @returns undefined where the pack is not known, or nothing that was used can be held against it
 */
export function stockOf(
  product: Product,
  used: readonly Amount[],
  unmeasuredUses: number,
  usedHere: readonly Amount[],
): Stock | undefined {
  const { pack } = product
  if (pack === undefined || !(pack.amount.value > 0)) return undefined
  const share = (amounts: readonly Amount[]) =>
    amounts.flatMap(
      (amount) =>
        shareOfPack(
          amount,
          pack.amount,
          product.label.densityKilogramsPerLitre,
        ) ?? [],
    )
  const shares = share(used)
  if (used.length > 0 && shares.length === 0) return undefined
  const packsUsed = sumOf(shares)
  const packsBought =
    product.packsBought ?? Math.max(1, Number(wholeAbove(packsUsed)))
  const packsLeft = sumOf([
    fractionOf(packsBought),
    times(fractionOf(-1), packsUsed),
  ])
  const here = sumOf(share(usedHere))
  const short = sumOf([packsLeft, times(fractionOf(-1), here)])
  return {
    productId: product.id,
    left: {
      value: Number(
        decimalText(times(packsLeft, fractionOf(pack.amount.value)), 6),
      ),
      unit: pack.amount.unit,
    },
    packsBought,
    packsSupposed: product.packsBought === undefined,
    unmeasuredUses: unmeasuredUses + (used.length - shares.length),
    buyAgain: here.numerator > 0n && short.numerator < 0n,
  }
}

/** The least whole number that is not below. */
function wholeAbove({ numerator, denominator }: Fraction): bigint {
  return numerator <= 0n ? 0n : (numerator + denominator - 1n) / denominator
}
