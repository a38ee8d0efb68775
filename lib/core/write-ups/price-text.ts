import type { WorkshopSettings } from '#core/journal/journal'
import { formatMoney } from '#core/money/format-money'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'

/** What is asked for a job, in a sentence; a price of nothing is one that is given away. */
export function priceText(
  askingPriceMinor: number,
  { currency }: Pick<WorkshopSettings, 'currency'>,
  language: Language,
): string {
  return language.price(asked(askingPriceMinor, currency))
}

/** What is asked, as on a tag: `£450`, or the word for what is given away. */
export function priceTag(
  minor: number,
  currency: string,
  language: Language = english,
): string {
  return asked(minor, currency) ?? language.tag.givenAway
}

/** Undefined where nothing is asked. */
function asked(minor: number, currency: string): string | undefined {
  return minor === 0
    ? undefined
    : formatMoney(minor, currency, { wholeShort: true })
}
