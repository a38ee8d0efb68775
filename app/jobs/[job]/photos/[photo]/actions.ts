'use server'

import { revalidatePath } from 'next/cache'
import { readLocal } from '#core/time/zone'
import { typePhotoTime } from '#services/cameras/photo-times'
import { turnPhoto } from '#services/photos/turn-photo'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../../_components/action-form.client'
import { textOf } from '../../../../_form-state'
import { requireLocalRequest } from '../../../../_session'

/** Takes the time that the owner typed, as wall-clock time of the workshop; of an hour that comes twice, the first. */
export async function typeTimeAction(
  job: string,
  photo: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  const { zone } = await readWorkshop()
  const text = textOf(form, 'time')
  const at = text === undefined ? undefined : momentOf(text, zone)
  if (at === undefined) {
    return {
      outcome: 'refused',
      errors: { time: 'Give a date and a time of day.' },
    }
  }
  const typed = await typePhotoTime(photo, { at })
  if (!typed.ok) return { outcome: 'refused', message: typed.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Time set.' }
}

/** Goes by the photo's own evidence again. */
export async function forgetTimeAction(
  job: string,
  photo: string,
): Promise<void> {
  await requireLocalRequest(job, photo)
  await typePhotoTime(photo, null)
  revalidatePath(`/jobs/${job}`, 'layout')
}

/** Turns a photo by a quarter: 1 to the right, -1 to the left. The original stays as it is. */
export async function turnAction(
  job: string,
  photo: string,
  quarterTurns: number,
): Promise<void> {
  await requireLocalRequest(job, photo)
  await turnPhoto(photo, quarterTurns)
  revalidatePath(`/jobs/${job}`, 'layout')
}

function momentOf(text: string, zone: string) {
  try {
    return readLocal(text, zone).at
  } catch {
    return undefined
  }
}
