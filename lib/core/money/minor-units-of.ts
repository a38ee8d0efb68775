import { minorUnitDigits } from '#core/money/minor-unit-digits'

/**
 * A price as it is written, in minor units: `24.50` is 2450 of GBP, `2450` is 2450 of JPY, `24.505` is 24505 of KWD.
 *
 * @param text digits, with a full stop before the decimals where there are any
 * @param currency ISO 4217, three capital letters
 * @returns undefined where it is no such number, or has more decimals than the currency
 */
export function minorUnitsOf(
  text: string,
  currency: string,
): number | undefined {
  const written = /^(\d+)(?:\.(\d+))?$/.exec(text)
  if (written === null) return undefined
  const [, whole = '', decimals = ''] = written
  const digits = minorUnitDigits(currency)
  if (decimals.length > digits) return undefined
  const minor = Number(`${whole}${decimals.padEnd(digits, '0')}`)
  return Number.isSafeInteger(minor) ? minor : undefined
}
