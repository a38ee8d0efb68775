'use server'

import { revalidatePath } from 'next/cache'
import { restorePhoto } from '#services/bin/bin'
import type { FormState } from '../../_components/action-form.client'
import { requireLocalRequest } from '../../_session'

/** Takes a photo out of the bin and back into its job. */
export async function restorePhotoAction(
  job: string,
  photo: string,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  const restored = await restorePhoto(job, photo)
  revalidatePath('/', 'layout')
  return restored.ok
    ? { outcome: 'saved', message: 'It is back in its job.' }
    : { outcome: 'refused', message: restored.refusal.detail }
}
