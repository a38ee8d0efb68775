'use server'

import { revalidatePath } from 'next/cache'
import { cookies } from 'next/headers'
import { setCameraClock } from '#services/cameras/cameras'
import {
  learnClockFromSameMoment,
  learnClockFromSatellite,
} from '#services/cameras/learn-clock'
import { now } from '#services/clock'
import { changeRates } from '#services/money/rates'
import { ratesFacts } from '#services/money/schema'
import { workshopSettings } from '#services/workshop/schema'
import { newWriteUpSettings } from '#services/write-ups/schema'
import { changeWriteUpSettings } from '#services/write-ups/settings'
import { changeWorkshop } from '#services/workshop/change-workshop'
import { readWorkshop } from '#services/workshop/workshop'
import { learntState } from '../_learnt-clock'
import type { FormState } from '../_components/action-form.client'
import { moneyOf, numberOf, refusedFields, textOf } from '../_form-state'
import { requireLocalRequest } from '../_session'
import { handCookie, handOf } from '../snap/hand'

/** Keeps the settings of the workshop. */
export async function changeWorkshopAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const settings = workshopSettings.safeParse({
    name: form.get('name'),
    zone: form.get('zone'),
    currency: form.get('currency'),
    units: form.get('units'),
  })
  if (!settings.success) return refusedFields(settings.error)
  await changeWorkshop(settings.data, now())
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Settings saved.' }
}

const aYearSeconds = 365 * 86_400

/** Puts the snap button on the side of a hand, on the phone that asks. */
export async function chooseHandAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const hand = handOf(textOf(form, 'hand'))
  ;(await cookies()).set(handCookie, hand, {
    maxAge: aYearSeconds,
    sameSite: 'lax',
    httpOnly: true,
  })
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: `The snap button is on the ${hand}.` }
}

/** Keeps how long write-ups may be, and the workshop's own links and tags. */
export async function changeWriteUpSettingsAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const settings = newWriteUpSettings.safeParse({
    limits: {
      listingTitle: form.get('limits.listingTitle'),
      listing: form.get('limits.listing'),
      video: form.get('limits.video'),
      caption: form.get('limits.caption'),
    },
    links: (textOf(form, 'links') ?? '')
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '')
      .map(readLink),
    tags: (textOf(form, 'tags') ?? '')
      .split(',')
      .map((tag) => tag.trim())
      .filter((tag) => tag !== ''),
  })
  if (!settings.success) {
    const errors: Record<string, string> = {}
    for (const issue of settings.error.issues) {
      const [name, part] = issue.path
      // Links and tags are one field each.
      const field = name === 'limits' ? `limits.${String(part)}` : String(name)
      errors[field] ??= issue.message
    }
    return {
      outcome: 'refused',
      message: 'Something here needs another look.',
      errors,
    }
  }
  await changeWriteUpSettings(settings.data)
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Saved.' }
}

/** The address is the last word of the line. */
function readLink(line: string) {
  const at = line.lastIndexOf(' ')
  return { label: line.slice(0, Math.max(0, at)), address: line.slice(at + 1) }
}

/** A clock set by eye against another is known to about half a minute. */
const uncertaintySeconds = 30

/** Sets how far a camera's clock is off. Left empty, it counts as unchecked again. */
export async function setClockAction(
  camera: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(camera)
  const minutes = numberOf(form, 'minutes')
  if (minutes !== undefined && !(minutes >= 0 && minutes <= 5_000_000)) {
    return {
      outcome: 'refused',
      message: 'Give the minutes as a number, such as 67; 0 when it is right.',
    }
  }
  const sign = textOf(form, 'direction') === 'fast' ? -1 : 1
  const set = await setCameraClock(
    camera,
    minutes === undefined
      ? null
      : {
          correctionSeconds: sign * Math.round(minutes * 60),
          uncertaintySeconds,
        },
  )
  if (!set.ok) return { outcome: 'refused', message: set.refusal.detail }
  revalidatePath('/', 'layout')
  return {
    outcome: 'saved',
    message:
      minutes === undefined
        ? 'The clock counts as unchecked again.'
        : 'Clock set; its photos are put right.',
  }
}

/** Sets a camera's clock by the satellite time in its photos. */
export async function learnFromSatelliteAction(
  camera: string,
): Promise<FormState> {
  await requireLocalRequest(camera)
  const state = learntState(await learnClockFromSatellite(camera))
  revalidatePath('/', 'layout')
  return state
}

/** Sets the clock of one photo's camera by another photo, taken at the same moment. */
export async function learnFromPairAction(
  photo: string,
  other: string,
): Promise<FormState> {
  await requireLocalRequest(photo, other)
  const state = learntState(await learnClockFromSameMoment(photo, other))
  revalidatePath('/', 'layout')
  return state
}

/** Keeps what an hour and a sale cost. */
export async function changeRatesAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const { currency } = await readWorkshop()
  const rates = ratesFacts.safeParse({
    hourlyMinor: moneyOf(form, 'hourlyMinor', currency),
    yearlyOverheadMinor: moneyOf(form, 'yearlyOverheadMinor', currency),
    productiveHours: numberOf(form, 'productiveHours'),
    feePercent: numberOf(form, 'feePercent'),
    feeFixedMinor: moneyOf(form, 'feeFixedMinor', currency),
    setUpMinutes: numberOf(form, 'setUpMinutes'),
    cleanUpMinutes: numberOf(form, 'cleanUpMinutes'),
  })
  if (!rates.success) return refusedFields(rates.error)
  await changeRates(rates.data)
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Rates saved.' }
}
