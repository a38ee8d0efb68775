'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { addStep, changeStep, removeStep } from '#services/steps/steps'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../_components/action-form.client'
import { refusedFields } from '../../../_form-state'
import { requireLocalRequest } from '../../../_session'
import { readStepForm } from '../_read-step-form'

/** Starts a step that has no photos yet and opens it. */
export async function startStepAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const { zone } = await readWorkshop()
  const step = readStepForm(form, zone, [])
  if (!step.success) return refusedFields(step.error)
  const added = await addStep(job, step.data, now())
  if (!added.ok) return { outcome: 'refused', message: added.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  redirect(`/jobs/${job}/steps/${added.value.id}`)
}

/** Changes what a step says; its photos stay with it. */
export async function changeStepAction(
  job: string,
  step: string,
  photos: readonly string[],
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const { zone } = await readWorkshop()
  const values = readStepForm(form, zone, photos)
  if (!values.success) return refusedFields(values.error)
  const changed = await changeStep(job, step, values.data)
  if (!changed.ok) {
    return { outcome: 'refused', message: changed.refusal.detail }
  }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Step saved.' }
}

/** Takes a step out of the job and goes back to the timeline. */
export async function removeStepAction(
  job: string,
  step: string,
): Promise<void> {
  await requireLocalRequest()
  await removeStep(job, step)
  revalidatePath(`/jobs/${job}`, 'layout')
  redirect(`/jobs/${job}/timeline`)
}
