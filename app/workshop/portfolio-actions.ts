'use server'

import { revalidatePath } from 'next/cache'
import { portfolioSettings } from '#services/portfolio/schema'
import { changePortfolioSettings } from '#services/portfolio/settings'
import type { FormState } from '../_components/action-form.client'
import { refusedFields, textOf } from '../_form-state'
import { requireLocalRequest } from '../_session'

/** Keeps what stands on every page of the portfolio. */
export async function changePortfolioAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const settings = portfolioSettings.safeParse({
    publicAddress: textOf(form, 'publicAddress') ?? '',
    introduction: (textOf(form, 'introduction') ?? '').replaceAll('\r\n', '\n'),
    contact: (textOf(form, 'contact') ?? '').replaceAll('\r\n', '\n'),
  })
  if (!settings.success) return refusedFields(settings.error)
  await changePortfolioSettings(settings.data)
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Saved; it is on all pages at once.' }
}
