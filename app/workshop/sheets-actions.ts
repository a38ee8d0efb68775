'use server'

import { revalidatePath } from 'next/cache'
import { changeCredit } from '#services/sheets/sheet-settings'
import type { FormState } from '../_components/action-form.client'
import { textOf } from '../_form-state'
import { requireLocalRequest } from '../_session'

/** Keeps whom the files that leave name as their author. */
export async function changeCreditAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const credit = textOf(form, 'credit') ?? ''
  await changeCredit(credit)
  revalidatePath('/', 'layout')
  return {
    outcome: 'saved',
    message:
      credit === ''
        ? 'Files name nobody from now on.'
        : 'Files name you from now on.',
  }
}
