'use server'

import { revalidatePath } from 'next/cache'
import { photoRoles, stepKinds } from '#core/journal/vocabulary'
import { momentWords } from '#core/time/moments'
import { readLocal } from '#core/time/zone'
import { stepNeighbour } from '#core/timeline/step-neighbour'
import { stepInSentence } from '#core/write-ups/english-steps'
import { surfaceWork } from '#core/write-ups/surface-work'
import { toldStep } from '#core/write-ups/told-step'
import { now } from '#services/clock'
import { readJournal } from '#services/journal/read-journal'
import { mendPhoto } from '#services/photos/mend-photo'
import { photoMending } from '#services/photos/schema'
import { readProducts } from '#services/shelf/products'
import { moveStep, renumberCoats } from '#services/steps/mend-order'
import { removeStep } from '#services/steps/steps'
import { readJobTimeline } from '#services/timeline/timeline'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../_components/action-form.client'
import { refusedFields, textOf } from '../../../_form-state'
import { localText } from '../../../_local-text'
import { requireLocalRequest } from '../../../_session'
import { roleName, stepName, surfacesWords } from '../../../_words'
import { stepChoices } from '../_step-choices'
import { stepValues } from '../_step-values'
import { stepWhen } from '../_step-when'
import { typedUncertainties } from '../photos/[photo]/typed-uncertainties'
import type { PhotoForm } from './_components/mend-photo.client'
import type { StepForm } from './_components/mend-step.client'

/** What the panel for mending a step needs; undefined when there is no such step. */
export async function readStepFormAction(
  job: string,
  id: string,
): Promise<StepForm | undefined> {
  await requireLocalRequest(job, id)
  const present = now()
  const [read, products, workshop] = await Promise.all([
    readJobTimeline(job),
    readProducts(),
    readWorkshop(),
  ])
  const step = read?.journal.steps.find((one) => one.id === id)
  if (read === undefined || step === undefined) return undefined
  const { journal, timeline } = read
  const works = surfaceWork(journal)
  return {
    title: `${stepName(step.kind, step.surfaces[0]?.coat)}: ${surfacesWords(
      journal.pieces,
      step.surfaces.map((on) => on.surfaceId),
    )}`,
    when: stepWhen(journal, step, present, workshop) ?? 'No time is known yet.',
    photos: journal.photos
      .filter(({ stepId }) => stepId === id)
      .map((photo) => ({
        id: photo.id,
        time: momentWords(photo.taken.at, present, workshop),
      })),
    choices: stepChoices(journal, products, step),
    values: stepValues(journal, step, workshop.zone),
    moves: timeline.lanes.flatMap(({ surface, steps }) => {
      const work = works.find((one) => one.surface.id === surface.id)
      return (['earlier', 'later'] as const).flatMap((toward) => {
        const other = stepNeighbour(steps, id, toward)
        return typeof other === 'string'
          ? []
          : {
              surface: surface.id,
              toward,
              words: `${toward === 'earlier' ? 'Before' : 'After'} ${stepInSentence(toldStep(other, work))} on ${surface.name}`,
            }
      })
    }),
  }
}

/** Takes a step out of the job, and stays where one is. */
export async function takeStepOutAction(
  job: string,
  step: string,
): Promise<FormState> {
  await requireLocalRequest(job, step)
  const removed = await removeStep(job, step, now())
  if (!removed.ok)
    return { outcome: 'refused', message: removed.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'The step is out.' }
}

/** Has a step change places with its neighbour on a surface. */
export async function moveStepAction(
  job: string,
  step: string,
  surface: string,
  toward: string,
): Promise<FormState> {
  await requireLocalRequest(job, step, surface, toward)
  const moved = await moveStep(
    job,
    step,
    { surface, toward: toward === 'earlier' ? 'earlier' : 'later' },
    now(),
  )
  if (!moved.ok) return { outcome: 'refused', message: moved.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Moved.' }
}

/** Numbers coats anew in the order of the work. */
export async function renumberAction(
  job: string,
  counts: readonly unknown[],
): Promise<FormState> {
  await requireLocalRequest(job)
  const known = counts.flatMap((count) => countOf(count) ?? [])
  const done = await renumberCoats(job, known, now())
  if (!done.ok) return { outcome: 'refused', message: done.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Numbered anew.' }
}

/** What whoever calls the action sent in place of a count. */
function countOf(count: unknown) {
  if (typeof count !== 'object' || count === null) return undefined
  const { kind, surfaceId, first }: Readonly<Record<string, unknown>> = {
    ...count,
  }
  const known = stepKinds.find((one) => one === kind)
  return known === undefined || typeof surfaceId !== 'string'
    ? undefined
    : {
        kind: known,
        surfaceId,
        ...(typeof first === 'number' &&
          Number.isInteger(first) &&
          first > 0 && { first }),
      }
}

/** What the form for mending a photo needs; undefined when there is no such photo. */
export async function readPhotoFormAction(
  job: string,
  id: string,
): Promise<PhotoForm | undefined> {
  await requireLocalRequest(job, id)
  const [journal, workshop] = await Promise.all([
    readJournal(job),
    readWorkshop(),
  ])
  const photo = journal?.photos.find((one) => one.id === id)
  if (journal === undefined || photo === undefined) return undefined
  const present = now()
  return {
    time: localText(photo.taken.at, workshop.zone, true),
    isTyped: photo.basis === 'typed',
    place: photo.stepId ?? photo.role,
    within: typedUncertainties.map(({ seconds, text }) => ({
      value: String(seconds),
      text,
    })),
    roles: photoRoles.map((role) => ({
      value: role,
      text: role === 'progress' ? 'Progress, of no step' : roleName(role),
    })),
    steps: journal.steps.map((step) => {
      const where = surfacesWords(
        journal.pieces,
        step.surfaces.map((on) => on.surfaceId),
      )
      const first = journal.photos.find(({ stepId }) => stepId === step.id)
      const at = step.startedAt ?? first?.taken.at
      return {
        value: step.id,
        text: `${stepName(step.kind, step.surfaces[0]?.coat)}: ${where}${at === undefined ? '' : `, ${momentWords(at, present, workshop)}`}`,
      }
    }),
  }
}

/** Mends when a photo was taken and what it shows; what was not touched stays as it is. */
export async function mendPhotoAction(
  job: string,
  photo: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job, photo)
  const { zone } = await readWorkshop()
  const time = textOf(form, 'time')
  const within = typedUncertainties.find(
    ({ seconds }) => String(seconds) === textOf(form, 'within'),
  )
  const place = textOf(form, 'place')
  const role = photoRoles.find((one) => one === place)
  const isMoved = place !== textOf(form, 'place.was')
  const mending = photoMending.safeParse({
    ...(isMoved &&
      (role === undefined ? { step: place } : { role, step: null })),
    ...(form.has('forget')
      ? { taken: null }
      : time !== textOf(form, 'time.was') && {
          taken: {
            at: time === undefined ? '' : instantTextOf(time, zone),
            uncertaintySeconds: within?.seconds ?? 0,
          },
        }),
  })
  if (!mending.success) {
    const state = refusedFields(mending.error)
    return state.errors?.['taken.at'] === undefined
      ? { outcome: 'refused', message: 'Nothing was changed yet.' }
      : { ...state, errors: { time: 'Give a date and a time of day.' } }
  }
  const mended = await mendPhoto(job, photo, mending.data)
  if (!mended.ok) return { outcome: 'refused', message: mended.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Photo mended.' }
}

function instantTextOf(local: string, zone: string): string {
  try {
    return new Date(readLocal(local, zone).at).toISOString()
  } catch {
    // No day of any calendar: the schema says so.
    return ''
  }
}
