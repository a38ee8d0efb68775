'use server'

import { revalidatePath } from 'next/cache'
import {
  removeCaptions,
  setChapterMarks,
  setChapters,
  settleQuestion,
  takeChapterChange,
  unsetChapters,
} from '#services/captions/captions'
import { chapterList, settledQuestion } from '#services/captions/schema'
import { now } from '#services/clock'
import type { FormState } from '../../../../_components/action-form.client'
import { refusedFields, textOf } from '../../../../_form-state'
import { requireLocalRequest } from '../../../../_session'

/** Shows the pages of a job anew once captions have been kept. */
export async function showCaptionsAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
}

/** Sets the chapters as they were moved and named. */
export async function setChaptersAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const seconds = form.getAll('seconds').map(Number)
  const titles = form.getAll('title')
  const steps = form.getAll('step')
  const sent = chapterList.safeParse(
    seconds.map((start, index) => ({
      seconds: start,
      title: titles[index],
      ...(steps[index] === '' ? {} : { stepId: steps[index] }),
      confidence: 1,
    })),
  )
  if (!sent.success) return refusedFields(sent.error)
  const set = await setChapters(
    job,
    sent.data.map(({ stepId, ...rest }) => ({
      ...rest,
      ...(stepId !== undefined && { stepId }),
    })),
    now(),
  )
  if (!set.ok) return { outcome: 'refused', message: set.refusal.detail }
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
  return { outcome: 'saved', message: 'Chapters saved.' }
}

/** Sets the chapters from typed marks. */
export async function typeMarksAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const set = await setChapterMarks(job, textOf(form, 'marks') ?? '', now())
  if (!set.ok) return { outcome: 'refused', message: set.refusal.detail }
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
  return { outcome: 'saved', message: 'Chapters saved.' }
}

/** Makes one of the changes that the captions offer in the chapters that were set. */
export async function takeChangeAction(
  job: string,
  key: string,
): Promise<FormState> {
  await requireLocalRequest(job)
  const taken = await takeChapterChange(job, key, now())
  if (!taken.ok) return { outcome: 'refused', message: taken.refusal.detail }
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
  return { outcome: 'saved', message: 'Change taken.' }
}

/** Goes back to the chapters that the captions give. */
export async function unsetChaptersAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  await unsetChapters(job)
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
}

/** Takes captions and chapters away. */
export async function removeCaptionsAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  await removeCaptions(job)
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
}

/** Asks a question no more. */
export async function settleQuestionAction(
  job: string,
  question: unknown,
): Promise<void> {
  await requireLocalRequest(job)
  const sent = settledQuestion.safeParse(question)
  if (sent.success) await settleQuestion(job, sent.data)
  revalidatePath(`/jobs/${job}/write-ups`, 'layout')
}
