'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { addPair, judgePair, readPairs } from '#services/pairs/pairs'
import { newPair } from '#services/pairs/schema'
import { placePhotos } from '#services/photos/place-photos'
import { photoPlacing } from '#services/photos/schema'
import { changeMarkWords, removeMarkPicture } from '#services/sheets/own-mark'
import { sheetLook } from '#services/sheets/schema'
import { keepLook } from '#services/sheets/sheet-settings'
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

/** Names the view of both photos of a pair; with nothing typed, or no such pair, all stays. */
export async function nameViewAction(
  job: string,
  pair: string,
  form: FormData,
): Promise<void> {
  await requireLocalRequest(job, pair)
  const known = (await readPairs(job)).find(({ id }) => id === pair)
  const typed = textOf(form, 'view') ?? ''
  if (known === undefined || typed === '') return
  const placing = photoPlacing.safeParse({
    photos: [known.before, known.after],
    view: typed,
  })
  if (!placing.success) return
  await placePhotos(job, placing.data)
  revalidatePath(`/jobs/${job}`, 'layout')
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

/** Sets the workshop's own mark in words; without any it goes. */
export async function changeMarkWordsAction(
  job: string,
  form: FormData,
): Promise<void> {
  await requireLocalRequest(job)
  await changeMarkWords(textOf(form, 'words') ?? '', now())
  revalidatePath(`/jobs/${job}/sheets`)
}

/** Takes the picture of the own mark away. */
export async function removeMarkPictureAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  await removeMarkPicture(now())
  revalidatePath(`/jobs/${job}/sheets`)
}

/** Shows the mark that was sent. */
export async function refreshSheetsAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  revalidatePath(`/jobs/${job}/sheets`)
}

/** Keeps how a sheet was made to look, for the next one. */
export async function keepLookAction(look: unknown): Promise<void> {
  await requireLocalRequest()
  const chosen = sheetLook.safeParse(look)
  if (chosen.success) await keepLook(chosen.data)
}
