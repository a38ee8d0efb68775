import 'server-only'
import type { Step } from '#core/journal/journal'
import { amountUnits } from '#core/shelf/product'

/** What was written down of how much a step used, from its columns; what is not there is left out. */
export function loggedFacts(row: {
  readonly amount: number | null
  readonly amountUnit: string | null
  readonly weighedBeforeGrams: number | null
  readonly weighedAfterGrams: number | null
}): Pick<Step, 'amount' | 'weighed'> {
  const unit = amountUnits.find((one) => one === row.amountUnit)
  return {
    ...(row.amount === null || unit === undefined
      ? {}
      : { amount: { value: row.amount, unit } }),
    ...(row.weighedBeforeGrams === null || row.weighedAfterGrams === null
      ? {}
      : {
          weighed: {
            beforeGrams: row.weighedBeforeGrams,
            afterGrams: row.weighedAfterGrams,
          },
        }),
  }
}
