'use server'

import { revalidatePath } from 'next/cache'
import { headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { momentWords } from '#core/time/moments'
import { now } from '#services/clock'
import { forgetAttempts, mayAttempt } from '#services/devices/attempt-limit'
import { addSession, revokeDevice } from '#services/devices/devices'
import { readLan } from '#services/devices/lan'
import { makePairingCode } from '#services/devices/pairing'
import { changePassphrase } from '#services/devices/passphrase'
import { drawQrCode } from '#services/devices/qr-code'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../_components/action-form.client'
import { textOf } from '../_form-state'
import {
  dropDeviceToken,
  keepDeviceToken,
  requireDesk,
  requireLocalRequest,
  thisDevice,
} from '../_session'
import { tooMany } from '../sign-in/_too-many'
import type { Pairing } from './_components/pair-phone.client'

/** Makes a code by which one phone is paired, and its picture. */
export async function pairPhoneAction(): Promise<Pairing> {
  await requireDesk()
  const lan = readLan()
  if (lan === undefined) throw new Error('Nothing is reached over a network.')
  const present = now()
  const { code, endsAt } = await makePairingCode(present)
  const address = `https://${lan.hosts[0] ?? ''}/pair`
  return {
    code,
    address,
    ...drawQrCode(`${address}#${code}`),
    until: momentWords(endsAt, present, await readWorkshop()),
  }
}

/** Lets a device in no more. */
export async function revokeDeviceAction(id: string): Promise<FormState> {
  await requireLocalRequest(id)
  await revokeDevice(id)
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'It is let in no more.' }
}

/** Signs the device out that asks. */
export async function signOutAction(): Promise<FormState> {
  await requireLocalRequest()
  const device = await thisDevice()
  if (device !== undefined) await revokeDevice(device.id)
  await dropDeviceToken()
  redirect('/sign-in')
}

/** Sets the passphrase, and signs this browser in by it. */
export async function changePassphraseAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireDesk()
  const present = now()
  if (!mayAttempt('passphrase', 'desk', present)) return tooMany
  const typed = (name: string) => {
    const value = form.get(name)
    return typeof value === 'string' ? value.slice(0, 400) : ''
  }
  const changed = await changePassphrase(
    typed('current'),
    typed('passphrase'),
    present,
  )
  if (!changed.ok) {
    const { field = 'passphrase', detail } = changed.refusal
    return {
      outcome: 'refused',
      message: 'The passphrase is as it was.',
      errors: { [field]: detail },
    }
  }
  forgetAttempts('passphrase', 'desk')
  await keepDeviceToken(
    await addSession('Browser at the desk', 'passphrase', present),
  )
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'The passphrase is set.' }
}

/** Lets a program in, and shows its token this once. */
export async function addProgramAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireDesk()
  const name = textOf(form, 'program')
  if (name === undefined) {
    return {
      outcome: 'refused',
      message: 'No token was made.',
      errors: { program: 'Say what it is, to know it again here.' },
    }
  }
  const token = await addSession(name, 'program', now())
  return {
    outcome: 'saved',
    message: `Its token, shown this once: ${token}`,
  }
}

/** Makes an address at which a calendar program reads the bench without signing in, and shows it this once. */
export async function addCalendarAction(): Promise<FormState> {
  await requireDesk()
  const lan = readLan()
  const origin =
    lan === undefined
      ? `http://${(await headers()).get('host') ?? 'localhost'}`
      : `https://${lan.hosts[0] ?? ''}`
  const token = await addSession('A calendar', 'calendar', now())
  revalidatePath('/workshop')
  return {
    outcome: 'saved',
    message: `The address, shown this once: ${origin}/api/bench.ics?feed=${token}`,
  }
}
