import type { WorkshopSettings } from '#core/journal/journal'
import { momentWords } from '#core/time/moments'
import type { Instant } from '#core/units'
import type { BackupSettings } from '#services/backup/backup-settings'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { TextField } from '../../_components/field.client'
import { Fold } from '../../_components/fold'
import { isAtDesk } from '../../_session'
import { changeBackupsAction } from '../backup-actions'

/** How the journal is kept from being lost: the last backup, one to download, the nightly folder, and the way back. */
export async function BackupsSection({
  settings,
  present,
  workshop,
}: {
  readonly settings: BackupSettings
  readonly present: Instant
  readonly workshop: WorkshopSettings
}) {
  const { folder, keep, done, problem, triedAt, downloadedAt } = settings
  const when = (at: Instant) => momentWords(at, present, workshop)
  return (
    <section id="backups" aria-labelledby="backups-title" className="min-w-0">
      <h2 id="backups-title" className="text-lead mb-1 font-bold">
        Backups
      </h2>
      <p className="text-ink-soft mb-3 max-w-prose">
        One file with every photo as it came and everything written down. Keep
        it on another disk, and as private as the photos are: they often hold
        the place where they were taken.
      </p>
      {problem !== undefined && triedAt !== undefined && (
        <p
          role="alert"
          className="border-wet bg-wet-soft text-wet rounded-card mb-3 border-2 p-4"
        >
          <strong>The backup failed</strong> {when(triedAt)}. {problem} It is
          tried again every hour.
        </p>
      )}
      <dl className="mb-4 grid gap-x-4 gap-y-1 sm:grid-cols-[auto_1fr]">
        <dt className="font-semibold">Last nightly backup</dt>
        <dd className="mb-1 wrap-anywhere">
          {done === undefined
            ? folder === undefined
              ? 'None: no folder is set.'
              : 'None yet.'
            : `${when(done.at)}, ${megabytes(done.byteLength)}, in ${done.file}`}
          {done !== undefined && done.missing > 0 && (
            <strong className="block">
              {done.missing === 1
                ? '1 photo is not in it: its file is missing or damaged.'
                : `${done.missing} photos are not in it: their files are missing or damaged.`}{' '}
              “npm run check” says which. An earlier backup may still have them.
            </strong>
          )}
        </dd>
        <dt className="font-semibold">Last download</dt>
        <dd>{downloadedAt === undefined ? 'None yet.' : when(downloadedAt)}</dd>
      </dl>
      <p className="mb-6">
        <a href="/api/backup" download className="button">
          Download a backup
        </a>
      </p>
      {(await isAtDesk()) && (
        <ActionForm
          action={changeBackupsAction}
          className="flex flex-col gap-4"
          label="Nightly backups"
        >
          <TextField
            name="folder"
            label="Folder for a backup every night at two"
            hint="Its whole path, on another disk. Left empty, none is made. A computer that sleeps at two makes it when it wakes."
            defaultValue={folder ?? ''}
            autoComplete="off"
            maxLength={1000}
          />
          <fieldset>
            <legend className="mb-2 font-semibold">
              Keep the last backup of each of the past
            </legend>
            <div className="field-row field-row-narrow">
              <TextField
                name="keepDays"
                label="Days"
                inputMode="numeric"
                autoComplete="off"
                defaultValue={String(keep.days)}
              />
              <TextField
                name="keepWeeks"
                label="Weeks"
                inputMode="numeric"
                autoComplete="off"
                defaultValue={String(keep.weeks)}
              />
              <TextField
                name="keepMonths"
                label="Months"
                inputMode="numeric"
                autoComplete="off"
                defaultValue={String(keep.months)}
              />
            </div>
          </fieldset>
          <div>
            <SubmitButton>Save the backups</SubmitButton>
          </div>
        </ActionForm>
      )}
      <Fold title="Bringing one back">
        <p className="max-w-prose">
          At the desk computer, with Coatbook stopped. First see what it would
          do; nothing is changed by that:
        </p>
        <pre className="bg-well rounded-card my-2 p-3 wrap-anywhere whitespace-pre-wrap">
          <code>npm run restore -- FILE.zip --dry-run</code>
        </pre>
        <p className="max-w-prose">
          Then without <code>--dry-run</code>. What the journal has stays; where
          the two differ, it asks which to keep.
        </p>
      </Fold>
    </section>
  )
}

function megabytes(bytes: number): string {
  return bytes < 1_000_000_000
    ? `${Math.ceil(bytes / 1_000_000)} MB`
    : `${(bytes / 1_000_000_000).toFixed(1)} GB`
}
