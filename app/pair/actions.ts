'use server'

import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { forgetAttempts, mayAttempt } from '#services/devices/attempt-limit'
import { pairPhone } from '#services/devices/pairing'
import { newPairing } from '#services/devices/schema'
import type { FormState } from '../_components/action-form.client'
import { refusedFields } from '../_form-state'
import { keepDeviceToken, requireOwnSite } from '../_session'
import { tooMany } from '../sign-in/_too-many'

/** Pairs the phone that brings a code from the desk computer. */
export async function pairAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  const peer = await requireOwnSite()
  const brought = newPairing.safeParse({
    code: form.get('code'),
    name: form.get('name') ?? '',
  })
  if (!brought.success) return refusedFields(brought.error)
  const present = now()
  if (!mayAttempt('pairing', peer, present)) return tooMany
  const { code, name } = brought.data
  const token = await pairPhone(code, name, present)
  if (!token.ok) {
    return {
      outcome: 'refused',
      message: 'This phone is not paired.',
      errors: { code: token.refusal.detail },
    }
  }
  forgetAttempts('pairing', peer)
  await keepDeviceToken(token.value)
  redirect('/')
}
