'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { alignByHand, alignByPictures } from '#services/pairs/pairs'
import { handPoints } from '#services/pairs/schema'
import { requireLocalRequest } from '../../../../../_session'

/** Keeps what the owner set by hand, and goes back to the pairs; else says what is wrong with it. */
export async function alignByHandAction(
  job: string,
  pair: string,
  points: unknown,
): Promise<string> {
  await requireLocalRequest(job, pair)
  const set = handPoints.safeParse(points)
  if (!set.success) return 'Four points are needed on each photo.'
  const aligned = await alignByHand(job, pair, set.data, now())
  if (!aligned.ok) return aligned.refusal.detail
  revalidatePath(`/jobs/${job}/sheets`)
  redirect(`/jobs/${job}/sheets#pair-${pair}`)
}

/** Takes back what was set by hand: the pictures decide again. */
export async function alignByPicturesAction(
  job: string,
  pair: string,
): Promise<void> {
  await requireLocalRequest(job, pair)
  await alignByPictures(job, pair)
  revalidatePath(`/jobs/${job}/sheets`)
}
