'use server'

import { revalidatePath } from 'next/cache'
import { takeBack } from '#services/bin/bin-parts'
import { binPlace } from '#services/bin/schema'
import type { FormState } from '../../_components/action-form.client'
import { requireLocalRequest } from '../../_session'

/** Takes something out of the bin, with what went in with it. */
export async function takeBackAction(
  kind: string,
  job: string,
  id: string,
): Promise<FormState> {
  await requireLocalRequest(kind, job, id)
  const place = binPlace.safeParse({ kind, job, id })
  if (!place.success) return nothingThere
  const back = await takeBack({ kind: place.data.kind, jobId: job, id })
  revalidatePath('/', 'layout')
  return back.ok
    ? { outcome: 'saved', message: 'It is back.' }
    : { outcome: 'refused', message: back.refusal.detail }
}

const nothingThere: FormState = {
  outcome: 'refused',
  message: 'There is no such thing in the bin.',
}
