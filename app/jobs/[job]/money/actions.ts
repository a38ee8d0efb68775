'use server'

import { revalidatePath } from 'next/cache'
import type { z } from 'zod'
import { decimalText, fractionOf, times } from '#core/money/fraction'
import { minorUnitDigits } from '#core/money/minor-unit-digits'
import type { Result } from '#core/result'
import { now } from '#services/clock'
import {
  addCost,
  addWork,
  changeSale,
  correctHours,
  removeCost,
  removeWork,
} from '#services/money/books'
import { newCost, newWork, saleFacts, stepHours } from '#services/money/schema'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../_components/action-form.client'
import { moneyOf, numberOf, refusedFields, textOf } from '../../../_form-state'
import { requireLocalRequest } from '../../../_session'

/** Writes down a cost. */
export async function addCostAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const { currency } = await readWorkshop()
  const each = numberOf(form, 'cost.eachMinor')
  const cost = newCost.safeParse({
    kind: form.get('cost.kind'),
    words: textOf(form, 'cost.words') ?? '',
    quantity: numberOf(form, 'cost.quantity'),
    eachMinor:
      each === undefined || !Number.isFinite(each)
        ? each
        : // Parts of a minor unit are kept: 0.725 a mile are 72.5 cents.
          Number(
            decimalText(
              times(
                fractionOf(each),
                fractionOf(10 ** minorUnitDigits(currency)),
              ),
              6,
            ),
          ),
    piece: textOf(form, 'cost.piece'),
  })
  if (!cost.success) return inForm(cost.error, 'cost')
  return answer(job, await addCost(job, cost.data, now()), 'Cost added.')
}

/** Takes a cost out again. */
export async function removeCostAction(
  job: string,
  cost: string,
): Promise<void> {
  await requireLocalRequest(job, cost)
  await removeCost(job, cost)
  revalidatePath(`/jobs/${job}`, 'layout')
}

/** Writes down work that is no step. */
export async function addWorkAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const work = newWork.safeParse({
    words: textOf(form, 'work.words') ?? '',
    minutes: numberOf(form, 'work.minutes'),
    piece: textOf(form, 'work.piece'),
  })
  if (!work.success) return inForm(work.error, 'work')
  return answer(job, await addWork(job, work.data, now()), 'Work added.')
}

/** Takes work that is no step out again. */
export async function removeWorkAction(
  job: string,
  work: string,
): Promise<void> {
  await requireLocalRequest(job, work)
  await removeWork(job, work)
  revalidatePath(`/jobs/${job}`, 'layout')
}

/** Keeps the hours of all steps as they were typed; an empty field goes by the photos or the settings. */
export async function correctHoursAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const steps = form.getAll('step').filter((one) => typeof one === 'string')
  const corrections = stepHours.array().safeParse(
    steps.map((step, index) => ({
      step,
      workMinutes: numberOf(form, `${index}.workMinutes`),
      setUpMinutes: numberOf(form, `${index}.setUpMinutes`),
      cleanUpMinutes: numberOf(form, `${index}.cleanUpMinutes`),
      otherPieces: numberOf(form, `${index}.otherPieces`),
    })),
  )
  if (!corrections.success) return refusedFields(corrections.error)
  return answer(job, await correctHours(job, corrections.data), 'Hours saved.')
}

/** Keeps what the job was sold for and what selling costs. */
export async function changeSaleAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const { currency } = await readWorkshop()
  const sale = saleFacts.safeParse({
    priceMinor: moneyOf(form, 'sale.priceMinor', currency),
    feesPaidMinor: moneyOf(form, 'sale.feesPaidMinor', currency),
    taxMinor: moneyOf(form, 'sale.taxMinor', currency),
    feePercent: numberOf(form, 'sale.feePercent'),
    feeFixedMinor: moneyOf(form, 'sale.feeFixedMinor', currency),
  })
  if (!sale.success) return inForm(sale.error, 'sale')
  return answer(job, await changeSale(job, sale.data), 'Sale saved.')
}

/** What is wrong, by the names that the fields have on the page. */
function inForm(error: z.ZodError, prefix: string): FormState {
  const state = refusedFields(error)
  return {
    ...state,
    errors: Object.fromEntries(
      Object.entries(state.errors ?? {}).map(([name, message]) => [
        `${prefix}.${name}`,
        message,
      ]),
    ),
  }
}

function answer(
  job: string,
  changed: Result<unknown>,
  message: string,
): FormState {
  if (!changed.ok) {
    return { outcome: 'refused', message: changed.refusal.detail }
  }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message }
}
