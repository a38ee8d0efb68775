import type { WorkshopSettings } from '#core/journal/journal'
import { formatMoney } from '#core/money/format-money'
import type { Language } from '#core/write-ups/language'

/** What is asked for a job, in a sentence; a price of nothing is one that is given away. */
export function priceText(
  askingPriceMinor: number,
  { currency }: Pick<WorkshopSettings, 'currency'>,
  language: Language,
): string {
  return language.price(
    askingPriceMinor === 0
      ? undefined
      : formatMoney(askingPriceMinor, currency, { wholeShort: true }),
  )
}
