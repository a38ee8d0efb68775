'use server'

import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { forgetAttempts, mayAttempt } from '#services/devices/attempt-limit'
import { addSession } from '#services/devices/devices'
import { isPassphrase } from '#services/devices/passphrase'
import { typedPassphrase } from '#services/devices/schema'
import type { FormState } from '../_components/action-form.client'
import { keepDeviceToken, requireOwnSite } from '../_session'
import { tooMany } from './_too-many'

/** Signs a browser in by the passphrase. */
export async function signInAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  const peer = await requireOwnSite()
  const passphrase = typedPassphrase.safeParse(form.get('passphrase'))
  if (!passphrase.success) return wrong
  const present = now()
  if (!mayAttempt('passphrase', peer, present)) return tooMany
  if (!(await isPassphrase(passphrase.data))) return wrong
  forgetAttempts('passphrase', peer)
  const name = peer === 'desk' ? 'Browser at the desk' : `Browser at ${peer}`
  await keepDeviceToken(await addSession(name, 'passphrase', present))
  redirect('/')
}

const wrong: FormState = {
  outcome: 'refused',
  message: 'That is not the passphrase.',
  errors: { passphrase: 'Type it again; capitals and spaces count.' },
}
