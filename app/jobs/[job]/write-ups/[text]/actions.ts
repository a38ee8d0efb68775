'use server'

import { revalidatePath } from 'next/cache'
import type { WriteUpName } from '#core/write-ups/write-up'
import { now } from '#services/clock'
import { keepEdit, removeEdit } from '#services/write-ups/edits'
import { newSentenceEdit } from '#services/write-ups/schema'
import type { FormState } from '../../../../_components/action-form.client'
import { refusedFields } from '../../../../_form-state'
import { requireLocalRequest } from '../../../../_session'

/** Keeps the owner's own words for a sentence; empty words leave it out. */
export async function keepEditAction(
  job: string,
  writeUp: WriteUpName,
  sentence: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, writeUp, sentence)
  const edit = newSentenceEdit.safeParse({
    writeUp,
    sentence,
    words: form.get('words'),
  })
  if (!edit.success) return refusedFields(edit.error)
  const kept = await keepEdit(job, edit.data, now())
  if (!kept.ok) return { outcome: 'refused', message: kept.refusal.detail }
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
  return { outcome: 'saved', message: 'Kept.' }
}

/** Goes by the journal's own wording again. */
export async function removeEditAction(
  job: string,
  writeUp: WriteUpName,
  sentence: string,
): Promise<void> {
  await requireLocalRequest(job, writeUp, sentence)
  await removeEdit(job, writeUp, sentence)
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
}
