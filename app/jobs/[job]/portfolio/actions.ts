'use server'

import { revalidatePath } from 'next/cache'
import { now } from '#services/clock'
import { keepDraft } from '#services/portfolio/drafts'
import { publishPiece, unpublishPiece } from '#services/portfolio/publish'
import { pieceChoice } from '#services/portfolio/schema'
import type { FormState } from '../../../_components/action-form.client'
import { refusedFields, textOf } from '../../../_form-state'
import { requireLocalRequest } from '../../../_session'

/** Keeps what the owner wants to be seen of a piece. What is out stays as it is. */
export async function keepDraftAction(
  job: string,
  piece: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, piece)
  const choice = pieceChoice.safeParse({
    title: textOf(form, 'title') ?? '',
    story: (textOf(form, 'story') ?? '').replaceAll('\r\n', '\n'),
    pairs: form.getAll('pairs'),
    photos: form.getAll('photos'),
    steps: form.getAll('steps'),
    finish: form.has('finish'),
    materials: form.has('materials'),
    size: form.has('size'),
    contact: form.has('contact'),
    price: form.get('price'),
    ...(form.get('whoseColours') === 'own' && {
      colours: form.getAll('colours'),
    }),
  })
  if (!choice.success) return refusedFields(choice.error)
  const kept = await keepDraft(job, piece, choice.data)
  if (!kept.ok) return { outcome: 'refused', message: kept.refusal.detail }
  revalidatePath(`/jobs/${job}/portfolio`, 'layout')
  return { outcome: 'saved', message: 'Draft saved. Visitors see no change.' }
}

/** Puts the page of a piece out as the owner has seen it. */
export async function publishAction(
  job: string,
  piece: string,
  seen: string,
): Promise<FormState> {
  await requireLocalRequest(job, piece, seen)
  const published = await publishPiece(job, piece, seen, now())
  revalidatePath(`/jobs/${job}/portfolio`, 'layout')
  return published.ok
    ? { outcome: 'saved', message: 'It is out.' }
    : { outcome: 'refused', message: published.refusal.detail }
}

/** Takes the page of a piece down. */
export async function unpublishAction(
  job: string,
  piece: string,
): Promise<FormState> {
  await requireLocalRequest(job, piece)
  const taken = await unpublishPiece(job, piece)
  revalidatePath(`/jobs/${job}/portfolio`, 'layout')
  return taken.ok
    ? { outcome: 'saved', message: 'It is down.' }
    : { outcome: 'refused', message: taken.refusal.detail }
}
