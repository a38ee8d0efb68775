import type { z } from 'zod'
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
  const text = value.trim()
  return text === '' ? undefined : text
}

/** Half of the world would read it as thousands, the other half as a fraction. */
const readTwoWays = /^\d{1,3},\d{3}$/

/**
 * The number in a field; undefined when it was left empty, NaN when it is none or can be read two ways, as 1,250 can.
 * Takes a comma for the decimal point, as half of the world types it.
 */
export function numberOf(form: FormData, name: string): number | undefined {
  const text = textOf(form, name)
  if (text === undefined) return undefined
  return readTwoWays.test(text) ? NaN : Number(text.replace(',', '.'))
}
