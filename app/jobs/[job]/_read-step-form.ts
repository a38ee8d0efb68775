import type { z } from 'zod'
import { readLocal } from '#core/time/zone'
import { instantText } from '#services/instant-text'
import { newStep } from '#services/steps/schema'
import type { FormState } from '../../_components/action-form.client'
import { numberOf, refusedFields, textOf } from '../../_form-state'
import { localText } from '../../_local-text'

/**
 * The step that a form describes, checked.
 *
 * Times are typed as wall-clock time in the workshop's zone; of an hour that comes twice, the first is meant.
 */
export function readStepForm(
  form: FormData,
  zone: string,
  photos?: readonly string[],
): z.ZodSafeParseResult<z.output<typeof newStep>> {
  const amount = numberOf(form, 'amount')
  const beforeGrams = numberOf(form, 'weighed.beforeGrams')
  const afterGrams = numberOf(form, 'weighed.afterGrams')
  return newStep.safeParse({
    kind: form.get('kind') ?? undefined,
    surfaces: form.getAll('surfaces'),
    product: textOf(form, 'product'),
    coat: numberOf(form, 'coat'),
    method: textOf(form, 'method'),
    thinningPercent: numberOf(form, 'thinningPercent'),
    grit: numberOf(form, 'grit'),
    amount:
      amount === undefined
        ? undefined
        : { value: amount, unit: textOf(form, 'amountUnit') ?? 'ml' },
    weighed:
      beforeGrams === undefined && afterGrams === undefined
        ? undefined
        : { beforeGrams, afterGrams },
    startedAt: instantOf(form, 'startedAt', zone),
    finishedAt: instantOf(form, 'finishedAt', zone),
    photos,
    note: textOf(form, 'note'),
  })
}

/** What is wrong with a step, in the words of its form. */
export function refusedStep(error: z.ZodError): FormState {
  const state = refusedFields(error)
  const errors = Object.entries(state.errors ?? {}).map(
    ([name, message]): readonly [string, string] =>
      name === 'kind'
        ? [name, 'Choose what was done.']
        : // The number of an amount and its unit are one field.
          [name === 'amount.value' ? 'amount' : name, message],
  )
  return { ...state, errors: Object.fromEntries<string>(errors) }
}

function instantOf(
  form: FormData,
  name: string,
  zone: string,
): string | undefined {
  const local = textOf(form, name)
  // What the photos said when the form was opened, and nobody touched, is not typed.
  if (local === undefined || local === textOf(form, `${name}.stamp`))
    return undefined
  try {
    const was = instantText.safeParse(form.get(`${name}.was`))
    // What was not touched keeps its seconds, and its side of an hour that comes twice.
    if (was.success && localText(was.data, zone) === local) {
      return new Date(was.data).toISOString()
    }
    return new Date(readLocal(local, zone).at).toISOString()
  } catch {
    // No date and time: the schema says so in its own words.
    return local
  }
}
