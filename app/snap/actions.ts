'use server'

import { revalidatePath } from 'next/cache'
import { now } from '#services/clock'
import { addToNote } from '#services/steps/steps'
import type { FormState } from '../_components/action-form.client'
import { requireLocalRequest } from '../_session'

/** Shows every page as it is now that something has come in from the queue. */
export async function refreshAction(): Promise<void> {
  await requireLocalRequest()
  revalidatePath('/', 'layout')
}

/** Adds a line to the note of a step that is in the workshop. */
export async function addNoteAction(
  job: string,
  step: string,
  note: string,
): Promise<FormState> {
  await requireLocalRequest(job, step, note)
  const added = await addToNote(job, step, note, now())
  if (!added.ok) return { outcome: 'refused', message: added.refusal.detail }
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'The note is with the step.' }
}
