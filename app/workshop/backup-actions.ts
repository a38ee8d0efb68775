'use server'

import { revalidatePath } from 'next/cache'
import { changeBackupSettings } from '#services/backup/backup-settings'
import { makeDueBackup } from '#services/backup/nightly-backup'
import { newBackupSettings } from '#services/backup/schema'
import { now } from '#services/clock'
import type { FormState } from '../_components/action-form.client'
import { refusedFields, textOf } from '../_form-state'
import { requireDesk } from '../_session'

/** Keeps where nightly backups go and for how long; the first to a new folder is begun at once. */
export async function changeBackupsAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireDesk()
  const settings = newBackupSettings.safeParse({
    folder: textOf(form, 'folder') ?? '',
    keepDays: form.get('keepDays'),
    keepWeeks: form.get('keepWeeks'),
    keepMonths: form.get('keepMonths'),
  })
  if (!settings.success) return refusedFields(settings.error)
  const changed = await changeBackupSettings(settings.data)
  if (!changed.ok) {
    const { detail } = changed.refusal
    return { outcome: 'refused', message: detail, errors: { folder: detail } }
  }
  makeDueBackup(now()).catch((error: unknown) => {
    console.error('The nightly backup could not be looked after.', error)
  })
  revalidatePath('/workshop')
  return {
    outcome: 'saved',
    message:
      settings.data.folder === ''
        ? 'No backups are made at night.'
        : 'Saved. A new folder gets its first backup now.',
  }
}
