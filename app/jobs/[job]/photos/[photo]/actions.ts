'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { readLocal } from '#core/time/zone'
import { millisecondsPerMinute, instant } from '#core/units'
import { removePhoto } from '#services/bin/bin'
import {
  learnClockFromSameMoment,
  learnClockFromShownTime,
} from '#services/cameras/learn-clock'
import { typePhotoTime } from '#services/cameras/photo-times'
import { now } from '#services/clock'
import { placePhotos } from '#services/photos/place-photos'
import { photoPlacing } from '#services/photos/schema'
import { turnPhoto } from '#services/photos/turn-photo'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../../_components/action-form.client'
import { refusedFields, textOf } from '../../../../_form-state'
import { learntState } from '../../../../_learnt-clock'
import { requireLocalRequest } from '../../../../_session'
import { typedUncertainties } from './typed-uncertainties'

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
  const within = typedUncertainties.find(
    ({ seconds }) => String(seconds) === textOf(form, 'within'),
  )
  const typed = await typePhotoTime(photo, {
    at,
    uncertaintySeconds: within?.seconds ?? 0,
  })
  if (!typed.ok) return { outcome: 'refused', message: typed.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Time set.' }
}

/** Says which flaw a photo is there to show; left empty, none. */
export async function showFlawAction(
  job: string,
  photo: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  return say(job, photo, { flaw: textOf(form, 'flaw') ?? '' })
}

/** Says which view a photo shows; left empty, none. */
export async function nameViewAction(
  job: string,
  photo: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  return say(job, photo, { view: textOf(form, 'view') ?? '' })
}

async function say(
  job: string,
  photo: string,
  words: { readonly flaw: string } | { readonly view: string },
): Promise<FormState> {
  const placing = photoPlacing.safeParse({ photos: [photo], ...words })
  if (!placing.success) return refusedFields(placing.error)
  const placed = await placePhotos(job, placing.data)
  if (!placed.ok) return { outcome: 'refused', message: placed.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Saved.' }
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

/** Learns how far the camera's clock is off from what a clock in the photo shows. */
export async function shownTimeAction(
  job: string,
  photo: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  const { zone } = await readWorkshop()
  const text = textOf(form, 'shown')
  const at = text === undefined ? undefined : momentOf(text, zone)
  if (at === undefined) {
    return {
      outcome: 'refused',
      errors: { shown: 'Give the date and the time of day that it shows.' },
    }
  }
  const shown = form.has('seconds')
    ? ({ at, to: 'second' } as const)
    : ({
        at: instant(at - (at % millisecondsPerMinute)),
        to: 'minute',
      } as const)
  const state = learntState(await learnClockFromShownTime(photo, shown))
  revalidatePath('/', 'layout')
  return state
}

/** Learns how far the camera's clock is off from another camera's photo of the same moment. */
export async function sameMomentAction(
  job: string,
  photo: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  const other = textOf(form, 'other')
  if (other === undefined) {
    return {
      outcome: 'refused',
      errors: { other: 'Choose the other photo.' },
    }
  }
  const state = learntState(await learnClockFromSameMoment(photo, other))
  revalidatePath('/', 'layout')
  return state
}

/** Puts a photo in the bin, and shows the others of its job. */
export async function removePhotoAction(
  job: string,
  photo: string,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  const removed = await removePhoto(job, photo, now())
  if (!removed.ok) {
    return { outcome: 'refused', message: removed.refusal.detail }
  }
  revalidatePath('/', 'layout')
  redirect(`/jobs/${job}/photos`)
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
