'use server'

import { revalidatePath } from 'next/cache'
import { ruleAnswerKinds } from '#core/finish/rule-answer'
import { now } from '#services/clock'
import { undoChange } from '#services/changes/changes'
import { answerRule, removeAnswer } from '#services/rules/rule-answers'
import { findingPlace, newRuleAnswer } from '#services/rules/schema'
import type { FormState } from '../../../_components/action-form.client'
import { requireLocalRequest } from '../../../_session'

/** As many surfaces as a step can have. */
const placesAtMost = 400

/** Keeps one answer to a finding on each surface where it stands. */
export async function answerFindingAction(
  job: string,
  places: readonly unknown[],
  answer: (typeof ruleAnswerKinds)[number],
): Promise<void> {
  await requireLocalRequest(job)
  for (const place of places.slice(0, placesAtMost)) {
    const told = newRuleAnswer.safeParse(
      typeof place === 'object' ? { ...place, answer } : place,
    )
    if (told.success) await answerRule(job, told.data, now())
  }
  revalidatePath(`/jobs/${job}`, 'layout')
}

/** Takes answers back. */
export async function openFindingAction(
  job: string,
  places: readonly unknown[],
): Promise<void> {
  await requireLocalRequest(job)
  for (const place of places.slice(0, placesAtMost)) {
    const told = findingPlace.safeParse(place)
    if (told.success) await removeAnswer(job, told.data)
  }
  revalidatePath(`/jobs/${job}`, 'layout')
}

/** Undoes a change to the steps, or says what stands in the way. */
export async function undoChangeAction(
  job: string,
  change: string,
): Promise<FormState> {
  await requireLocalRequest(job, change)
  const undone = await undoChange(job, change, now())
  if (!undone.ok) return { outcome: 'refused', message: undone.refusal.detail }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Undone.' }
}
