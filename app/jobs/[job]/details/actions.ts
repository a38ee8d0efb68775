'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { readLocal } from '#core/time/zone'
import type { Instant } from '#core/units'
import { putInBin } from '#services/bin/bin-parts'
import { now } from '#services/clock'
import { addPiece, addSurface, changeJobFacts } from '#services/jobs/jobs'
import { jobFacts, newPiece, surfaceName } from '#services/jobs/schema'
import { finishJob, handOverJob } from '#services/jobs/hand-over-job'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../../../_components/action-form.client'
import { moneyOf, numberOf, refusedFields, textOf } from '../../../_form-state'
import { requireLocalRequest } from '../../../_session'

/** Keeps what the listing tells of a job. */
export async function changeFactsAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const count = Math.min(Number(form.get('pieceCount')), 40)
  const { currency } = await readWorkshop()
  const facts = jobFacts.safeParse({
    title: form.get('title'),
    askingPriceMinor: moneyOf(form, 'askingPrice', currency) ?? null,
    collection: textOf(form, 'collection') ?? '',
    client: textOf(form, 'client') ?? '',
    brief: textOf(form, 'brief') ?? '',
    pieces: Array.from({ length: count }, (_, index) => ({
      id: form.get(`pieces.${index}.id`),
      name: form.get(`pieces.${index}.name`),
      kind: form.get(`pieces.${index}.kind`),
      dimensions: {
        width: numberOf(form, `pieces.${index}.dimensions.width`),
        depth: numberOf(form, `pieces.${index}.dimensions.depth`),
        height: numberOf(form, `pieces.${index}.dimensions.height`),
        unit: form.get('unit'),
      },
      material: textOf(form, `pieces.${index}.material`) ?? '',
      flaws: textOf(form, `pieces.${index}.flaws`) ?? '',
      style: textOf(form, `pieces.${index}.style`) ?? '',
      age: textOf(form, `pieces.${index}.age`) ?? '',
      ageKnownBy: textOf(form, `pieces.${index}.ageKnownBy`) ?? '',
      hardware: textOf(form, `pieces.${index}.hardware`) ?? '',
      liner: textOf(form, `pieces.${index}.liner`) ?? null,
    })),
  })
  if (!facts.success) {
    const state = refusedFields(facts.error)
    const { askingPriceMinor, ...errors } = state.errors ?? {}
    return {
      ...state,
      errors:
        askingPriceMinor === undefined
          ? errors
          : {
              ...errors,
              askingPrice: 'Give the price as a number, such as 450.',
            },
    }
  }
  const changed = await changeJobFacts(job, facts.data)
  if (!changed.ok) {
    return { outcome: 'refused', message: changed.refusal.detail }
  }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Details saved.' }
}

/** Adds a surface to one of the job's pieces. */
export async function addSurfaceAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const name = surfaceName.safeParse(form.get('surface'))
  if (!name.success) {
    return {
      outcome: 'refused',
      errors: { surface: name.error.issues[0]?.message ?? '' },
    }
  }
  const added = await addSurface(job, textOf(form, 'piece') ?? '', name.data)
  if (!added.ok) {
    return {
      outcome: 'refused',
      errors: { surface: added.refusal.detail },
    }
  }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: `${added.value.name} added.` }
}

/** Adds a piece to the job. */
export async function addPieceAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const kind = form.get('kind')
  const piece = newPiece.safeParse({
    kind,
    name: kind,
    surfaces: (textOf(form, 'surfaces') ?? '')
      .split(',')
      .map((one) => one.trim())
      .filter((one) => one !== ''),
  })
  if (!piece.success) return refusedFields(piece.error)
  const added = await addPiece(job, piece.data)
  if (!added.ok) return { outcome: 'refused', message: added.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: `${piece.data.name} added.` }
}

/** Marks the job as finished now, or opens it again. */
export async function finishJobAction(
  job: string,
  finished: boolean,
): Promise<void> {
  await requireLocalRequest(job)
  await finishJob(job, finished ? now() : null)
  revalidatePath('/', 'layout')
}

/** Puts a piece or a surface of the job in the bin. */
export async function removePartAction(
  job: string,
  kind: 'piece' | 'surface',
  id: string,
): Promise<FormState> {
  await requireLocalRequest(job, kind, id)
  // Whoever calls it can send anything in place of the kind.
  const part = kind === 'piece' ? 'piece' : 'surface'
  const put = await putInBin({ kind: part, jobId: job, id }, now())
  if (!put.ok) return { outcome: 'refused', message: put.refusal.detail }
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'It is in the bin.' }
}

/** Puts the job in the bin, and shows it there. */
export async function removeJobAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  await putInBin({ kind: 'job', jobId: job, id: job }, now())
  revalidatePath('/', 'layout')
  redirect('/workshop/bin')
}

/** Keeps the days on which the job was sold and delivered; an empty day takes it back. */
export async function handOverAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const { zone } = await readWorkshop()
  const kept = await handOverJob(job, {
    soldAt: noonOf(textOf(form, 'sold'), zone),
    deliveredAt: noonOf(textOf(form, 'delivered'), zone),
  })
  if (!kept.ok) {
    const { detail, field } = kept.refusal
    return field === undefined
      ? { outcome: 'refused', message: detail }
      : { outcome: 'refused', errors: { [field]: detail } }
  }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Dates saved.' }
}

/** The hour is not asked for, and noon is the same day in every reading. */
function noonOf(day: string | undefined, zone: string): Instant | null {
  if (day === undefined) return null
  try {
    return readLocal(`${day}T12:00`, zone).at
  } catch {
    // No day of any calendar: as if it had been left empty.
    return null
  }
}
