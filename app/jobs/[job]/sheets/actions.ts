'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { addPair, judgePair } from '#services/pairs/pairs'
import { newPair } from '#services/pairs/schema'
import { textOf } from '../../../_form-state'
import { requireLocalRequest } from '../../../_session'

/** The owner says that two photos belong together. */
export async function confirmPairAction(
  job: string,
  pair: string,
): Promise<void> {
  await requireLocalRequest(job, pair)
  await judgePair(job, pair, true, now())
  revalidatePath(`/jobs/${job}/sheets`)
}

/** The owner says that two photos do not belong together. */
export async function separatePairAction(
  job: string,
  pair: string,
): Promise<void> {
  await requireLocalRequest(job, pair)
  await judgePair(job, pair, false, now())
  revalidatePath(`/jobs/${job}/sheets`)
}

/** Keeps two chosen photos as a pair, aligns them and shows them on the sheets; nothing when none were chosen. */
export async function keepPairAction(
  job: string,
  form: FormData,
): Promise<void> {
  await requireLocalRequest(job)
  const pair = newPair.safeParse({
    before: textOf(form, 'before'),
    after: textOf(form, 'after'),
  })
  if (!pair.success) return
  const { before, after } = pair.data
  const added = await addPair(job, pair.data, now())
  if (!added.ok) return
  revalidatePath(`/jobs/${job}/sheets`)
  redirect(`/jobs/${job}/sheets?before=${before}&after=${after}`)
}

/** Shows the pairs that were found meanwhile. */
export async function lookAgainAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  revalidatePath(`/jobs/${job}/sheets`)
}
