'use server'

import { revalidatePath } from 'next/cache'
import { undoWorkshopChange } from '#services/changes/workshop-changes'
import { now } from '#services/clock'
import type { FormState } from './_components/action-form.client'
import { requireLocalRequest } from './_session'

/** Undoes a change of the shelf or of a camera's clock, or says what stands in the way. */
export async function undoWorkshopChangeAction(
  change: string,
): Promise<FormState> {
  await requireLocalRequest(change)
  const undone = await undoWorkshopChange(change, now())
  if (!undone.ok) return { outcome: 'refused', message: undone.refusal.detail }
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Undone.' }
}
