'use server'

import { revalidatePath } from 'next/cache'
import { now } from '#services/clock'
import { finishJob } from '#services/jobs/hand-over-job'
import { requireLocalRequest } from '../_session'

/** Shows the bench as it is now. */
export async function refreshBenchAction(): Promise<void> {
  await requireLocalRequest()
  revalidatePath('/')
}

/** Says of a job on the bench that it is finished. */
export async function finishJobAction(job: string): Promise<void> {
  await requireLocalRequest(job)
  await finishJob(job, now())
  revalidatePath('/', 'layout')
}
