import { decimalText, fractionOf, over } from '#core/money/fraction'
import { minorUnitDigits } from '#core/money/minor-unit-digits'

/**
 * An amount of money in plain decimal, without a sign for the currency: 2360 of GBP is `23.60`.
 *
 * @param minor whole number of minor units (pence, cents)
 * @throws RangeError when `minor` is no safe whole number
 */
export function moneyDigits(minor: number, currency: string): string {
  if (!Number.isSafeInteger(minor)) {
    throw new RangeError(
      `moneyDigits: expected whole minor units, got ${minor}`,
    )
  }
  const digits = minorUnitDigits(currency)
  const [whole = '', decimals = ''] = decimalText(
    over(fractionOf(minor), fractionOf(10 ** digits)),
    digits,
  ).split('.')
  return digits === 0 ? whole : `${whole}.${decimals.padEnd(digits, '0')}`
}

/**
 * An amount of money as a reader of English expects it: `£1,234.50`, `CA$12.00`, `PLN 8.00`.
 *
 * @param minor whole number of minor units (pence, cents)
 * @param currency ISO 4217, three capital letters
 * @param wholeShort leaves `.00` off, as on a price tag: `£450`
 * @throws RangeError when `minor` is no safe whole number or the currency no three letters
 */
export function formatMoney(
  minor: number,
  currency: string,
  { wholeShort = false }: { readonly wholeShort?: boolean } = {},
): string {
  const text = moneyDigits(minor, currency)
  const digits = minorUnitDigits(currency)
  const [whole = '', decimals = ''] = text.split('.')
  const short = wholeShort && /^0*$/.test(decimals)
  // Only the sign of the currency and its place are asked of Intl: its own idea of decimals is not ISO's.
  return new Intl.NumberFormat('en', {
    style: 'currency',
    currency,
    minimumFractionDigits: short ? 0 : digits,
    maximumFractionDigits: short ? 0 : digits,
  })
    .formatToParts(minor < 0 ? -1 : 1)
    .map((part) => {
      if (part.type === 'integer') return grouped(whole.replace('-', ''))
      if (part.type === 'fraction') return decimals
      return part.value.replace(/\s/g, ' ')
    })
    .join('')
}

function grouped(digits: string): string {
  return digits.replace(/\B(?=(\d{3})+$)/g, ',')
}
