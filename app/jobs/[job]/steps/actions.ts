'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { judgeDraftStep } from '#core/finish/judge-draft-step'
import type { DraftStep } from '#core/finish/with-draft'
import type { Step } from '#core/journal/journal'
import { type MomentStyle, momentWords } from '#core/time/moments'
import { lengthOfTime } from '#core/time/length-of-time'
import { draftWaits } from '#core/timeline/draft-waits'
import {
  type PhotoOutsideTimes,
  photoOutsideTimes,
} from '#core/timeline/photo-outside-times'
import type { Instant } from '#core/units'
import { now } from '#services/clock'
import { present } from '#services/database/instants'
import { readJournal } from '#services/journal/read-journal'
import { readProduct } from '#services/shelf/products'
import { addStep, changeStep, removeStep } from '#services/steps/steps'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../_components/action-form.client'
import type { DraftFinding } from '../../../_components/draft-findings'
import { requireLocalRequest } from '../../../_session'
import { readStepForm, refusedStep } from '../_read-step-form'
import { waitsInWords } from './_wait-words'

/** Starts a step that has no photos yet and opens it. */
export async function startStepAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const { zone } = await readWorkshop()
  const step = readStepForm(form, zone, [])
  if (!step.success) return refusedStep(step.error)
  const present = now()
  const startsNow = form.get('startsNow') === 'on'
  const added = await addStep(
    job,
    startsNow &&
      step.data.startedAt === undefined &&
      step.data.finishedAt === undefined
      ? { ...step.data, startedAt: present }
      : step.data,
    present,
  )
  if (!added.ok) return { outcome: 'refused', message: added.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  redirect(`/jobs/${job}/steps/${added.value.id}`)
}

/** Changes what a step says; its photos stay with it. */
export async function changeStepAction(
  job: string,
  step: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, step)
  const { zone } = await readWorkshop()
  const values = readStepForm(form, zone)
  if (!values.success) return refusedStep(values.error)
  const changed = await changeStep(job, step, values.data, now())
  if (!changed.ok) {
    return { outcome: 'refused', message: changed.refusal.detail }
  }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Step saved.' }
}

/**
 * What there is to say to a step as it stands in the form, before it is done: surfaces that are still wet or whose window has
 * passed, then the rules of a sound finish. Empty while the form is not complete. A step without a time is taken to
 * happen now.
 */
export async function judgeDraftAction(
  job: string,
  step: string | null,
  form: FormData,
): Promise<readonly DraftFinding[]> {
  await requireLocalRequest(job, step ?? '')
  const workshop = await readWorkshop()
  const { zone, units } = workshop
  const photoIds = form
    .getAll('photos')
    .filter((one) => typeof one === 'string')
  const draft = readStepForm(form, zone, photoIds)
  if (!draft.success) return []
  const journal = await readJournal(job)
  if (journal === undefined) return []
  const { product: productId, coat, surfaces, ...told } = draft.data
  const product =
    productId === undefined ? undefined : await readProduct(productId)
  const kept = journal.steps.find((one) => one.id === step)
  const drafted: DraftStep = {
    ...present({
      method: told.method,
      thinningPercent: told.thinningPercent,
      grit: told.grit,
      amount: told.amount,
      note: told.note,
      startedAt: told.startedAt,
      finishedAt: told.finishedAt,
    }),
    kind: told.kind,
    surfaces: surfaces.map((surfaceId) => ({
      surfaceId,
      ...present({ coat }),
    })),
    ...whenOf(kept, photoIds, told.startedAt ?? now()),
    ...(product === undefined ? {} : { product }),
  }
  const findings = judgeDraftStep(journal, drafted, units)
  const bySentence = new Map(
    findings.map((finding) => [`${finding.rule} ${finding.reason}`, finding]),
  )
  const rules = [...bySentence].map(([key, finding]) => ({
    key,
    strength: finding.strength,
    sentence: finding.sentence,
    reason: finding.reason,
    advice: finding.advice,
  }))
  const waits = waitsInWords(
    draftWaits(journal, drafted, units),
    journal.pieces.length,
    now(),
    workshop,
  )
  const outside = photoOutsideTimes(
    drafted,
    journal.photos.filter(
      ({ id, stepId }) =>
        photoIds.includes(id) || (kept !== undefined && stepId === kept.id),
    ),
  )
  return [
    ...(outside === undefined ? [] : [outsideInWords(outside, workshop)]),
    ...waits,
    ...rules,
  ]
}

function outsideInWords(
  { photo, side, minutes }: PhotoOutsideTimes,
  style: MomentStyle,
): DraftFinding {
  const of = `The photo of ${momentWords(photo.taken.at, now(), style)} was taken`
  const length = lengthOfTime(minutes, 'down')
  return {
    key: 'photo outside',
    strength: 'should',
    sentence: 'The typed times leave out a photo of this step.',
    reason:
      side === 'before'
        ? `${of} ${length} before the start.`
        : `${of} ${length} after the end.`,
    advice: 'Look at the day and the hour again.',
  }
}

/** A step that has photos has its time from them; a new one without any is happening now. */
function whenOf(
  kept: Step | undefined,
  photoIds: readonly string[],
  startedAt: Instant,
): Partial<DraftStep> {
  if (kept !== undefined) return { id: kept.id, photoIds: kept.photoIds }
  return photoIds.length > 0 ? { photoIds } : { startedAt }
}

/** Takes a step out of the job and goes back to the timeline. */
export async function removeStepAction(
  job: string,
  step: string,
): Promise<void> {
  await requireLocalRequest(job, step)
  await removeStep(job, step, now())
  revalidatePath(`/jobs/${job}`, 'layout')
  redirect(`/jobs/${job}/timeline`)
}
