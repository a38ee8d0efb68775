'use server'

import { redirect } from 'next/navigation'
import { now } from '#services/clock'
import { addJob } from '#services/jobs/jobs'
import { newJob } from '#services/jobs/schema'
import type { FormState } from '../../_components/action-form.client'
import { refusedFields } from '../../_form-state'
import { requireLocalRequest } from '../../_session'

/** Starts a job from the form and opens its photos. */
export async function addJobAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const count = Number(form.get('pieceCount'))
  const pieces = Array.from({ length: Math.min(count, 40) }, (_, index) => {
    const kind = form.get(`pieces.${index}.kind`)
    const name = form.get(`pieces.${index}.name`)
    const own = form.get(`pieces.${index}.ownSurfaces`)
    return {
      kind,
      name: typeof name === 'string' && name.trim() !== '' ? name : kind,
      surfaces: [
        ...form.getAll(`pieces.${index}.surfaces`),
        ...(typeof own === 'string'
          ? own
              .split(',')
              .map((one) => one.trim())
              .filter((one) => one !== '')
          : []),
      ],
    }
  })
  const job = newJob.safeParse({ title: form.get('title'), pieces })
  if (!job.success) {
    const state = refusedFields(job.error)
    const errors = Object.entries(state.errors ?? {}).filter(
      // A piece without a name of its own is called what it is; one complaint is enough.
      ([name]) =>
        !(
          name.endsWith('.name') &&
          `${name.slice(0, -5)}.kind` in (state.errors ?? {})
        ),
    )
    return { ...state, errors: Object.fromEntries(errors) }
  }
  const added = await addJob(job.data, now())
  redirect(`/jobs/${added.id}/photos`)
}
