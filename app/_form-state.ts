import type { z } from 'zod'
import { decimalText, fractionOf } from '#core/money/fraction'
import { minorUnitDigits } from '#core/money/minor-unit-digits'
import { minorUnitsOf } from '#core/money/minor-units-of'
import { readNumber } from '#core/read-number'
import type { FormState } from './_components/action-form.client'

/** What a form is told when its values do not fit: the first message for each field. */
export function refusedFields(
  error: z.ZodError,
  message = 'Something here needs another look.',
): FormState {
  const errors: Record<string, string> = {}
  for (const issue of error.issues) {
    const name = issue.path.map(String).join('.')
    errors[name] ??= issue.message
  }
  return { outcome: 'refused', message, errors }
}

/** The text of a field, trimmed; undefined when it was left empty. */
export function textOf(form: FormData, name: string): string | undefined {
  const value = form.get(name)
  if (typeof value !== 'string') return undefined
  // Behind U+0000 nothing would be kept.
  const text = value.replaceAll('\0', '').trim()
  return text === '' ? undefined : text
}

/** The number in a field; undefined when it was left empty, NaN when it is none or can be read two ways, as 1,250 can. */
export function numberOf(form: FormData, name: string): number | undefined {
  const text = textOf(form, name)
  return text === undefined ? undefined : readNumber(text)
}

/**
 * The price in a field, in minor units; undefined when it was left empty, NaN when it is none, can be read two ways or
 * has more decimals than the currency.
 */
export function moneyOf(
  form: FormData,
  name: string,
  currency: string,
): number | undefined {
  const value = numberOf(form, name)
  // Where money has no three decimals, three digits behind a point may be meant as thousands.
  const readTwoWays =
    minorUnitDigits(currency) !== 3 &&
    /^\D*\d{1,3}\.\d{3}\D*$/.test(textOf(form, name) ?? '')
  if (readTwoWays) return NaN
  return value === undefined || !Number.isFinite(value)
    ? value
    : (minorUnitsOf(decimalText(fractionOf(value), 12), currency) ?? NaN)
}
