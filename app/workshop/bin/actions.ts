'use server'

import { revalidatePath } from 'next/cache'
import { changeBinRules } from '#services/bin/bin-settings'
import { takeBack } from '#services/bin/bin-parts'
import { emptyWholeBin } from '#services/bin/empty-bin'
import { binPlace, newBinRules } from '#services/bin/schema'
import { now } from '#services/clock'
import type { FormState } from '../../_components/action-form.client'
import { numberOf, refusedFields } from '../../_form-state'
import { requireLocalRequest } from '../../_session'

/** Takes something out of the bin, with what went in with it. */
export async function takeBackAction(
  kind: string,
  job: string,
  id: string,
): Promise<FormState> {
  await requireLocalRequest(kind, job, id)
  const place = binPlace.safeParse({ kind, job, id })
  if (!place.success) return nothingThere
  const back = await takeBack({ kind: place.data.kind, jobId: job, id })
  revalidatePath('/', 'layout')
  return back.ok
    ? { outcome: 'saved', message: 'It is back.' }
    : { outcome: 'refused', message: back.refusal.detail }
}

/** Keeps how long the bin is to keep things. */
export async function changeBinRulesAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const rules = newBinRules.safeParse({
    keepDays: numberOf(form, 'keepDays'),
    originalDays: numberOf(form, 'originalDays'),
  })
  if (!rules.success) return refusedFields(rules.error)
  await changeBinRules(rules.data)
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Saved.' }
}

/** Removes all that is in the bin for good, where its owner said so twice. */
export async function emptyBinAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  if (form.get('sure') !== 'yes') {
    return {
      outcome: 'refused',
      message: 'Nothing was removed.',
      errors: { sure: 'Tick that you know it cannot be brought back.' },
    }
  }
  await emptyWholeBin(now())
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'The bin is empty.' }
}

const nothingThere: FormState = {
  outcome: 'refused',
  message: 'There is no such thing in the bin.',
}
