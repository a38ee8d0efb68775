'use server'

import { revalidatePath } from 'next/cache'
import { requireLocalRequest } from '../_session'

/** Shows the bench as it is now. */
export async function refreshBenchAction(): Promise<void> {
  await requireLocalRequest()
  revalidatePath('/')
}
