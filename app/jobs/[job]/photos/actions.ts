'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { placePhotos } from '#services/photos/place-photos'
import { photoPlacing } from '#services/photos/schema'
import { confirmPlacing } from '#services/placing/confirm-placing'
import { undoPlacing } from '#services/placing/undo-placing'
import { addStep } from '#services/steps/steps'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../_components/action-form.client'
import { refusedFields, textOf } from '../../../_form-state'
import { requireLocalRequest } from '../../../_session'
import { readStepForm, refusedStep } from '../_read-step-form'
import { readPlacingForm } from './_read-placing-form'

/** Makes a new step out of the chosen photos. */
export async function addStepAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const { zone } = await readWorkshop()
  const step = readStepForm(form, zone, photosOf(form))
  if (!step.success) return refusedStep(step.error)
  const added = await addStep(job, step.data, now())
  if (!added.ok) return { outcome: 'refused', message: added.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Step saved.' }
}

/** Says what the chosen photos show, other than a new step. */
export async function placePhotosAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const step = textOf(form, 'step')
  const role = textOf(form, 'role')
  if (step === undefined && role === undefined) {
    return {
      outcome: 'refused',
      message: 'Something here needs another look.',
      errors: { role: 'Choose before, after or progress.' },
    }
  }
  const placing = photoPlacing.safeParse({
    photos: photosOf(form),
    // A before or an after belongs to no step; what was left empty stays as it is.
    ...(step === undefined
      ? {
          role,
          view: textOf(form, 'view'),
          ...(role === 'progress' ? {} : { step: null }),
        }
      : { step }),
    ...(form.has('surfaces') ? { surfaces: form.getAll('surfaces') } : {}),
  })
  if (!placing.success) return refusedFields(placing.error)
  const placed = await placePhotos(job, placing.data)
  if (!placed.ok) return { outcome: 'refused', message: placed.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Photos placed.' }
}

/** Places the photos of a day as they are proposed or were changed. */
export async function confirmPlacingAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const placing = readPlacingForm(form)
  if (placing === undefined) {
    return {
      outcome: 'refused',
      message: 'All are left for later. Choose what at least one shows.',
    }
  }
  const placed = await confirmPlacing(job, placing, now())
  if (!placed.ok) return { outcome: 'refused', message: placed.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  redirect(`/jobs/${job}/photos#placed`)
}

/** Takes back what was placed in one go. */
export async function undoPlacingAction(
  job: string,
  placing: string,
): Promise<void> {
  await requireLocalRequest(job, placing)
  // Who presses it twice has it taken back all the same.
  await undoPlacing(job, placing, now())
  revalidatePath(`/jobs/${job}`, 'layout')
}

function photosOf(form: FormData): string[] {
  return form.getAll('photos').filter((one) => typeof one === 'string')
}
