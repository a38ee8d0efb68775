'use server'

import { revalidatePath } from 'next/cache'
import { requireLocalRequest } from '../_session'

/** Shows every page as it is now that something has come in from the queue. */
export async function refreshAction(): Promise<void> {
  await requireLocalRequest()
  revalidatePath('/', 'layout')
}
