import type { Result } from '#core/result'
import type { OriginalDescription } from '#services/photos/describe-original'
import {
  ActionForm,
  SubmitButton,
} from '../../../../../_components/action-form.client'
import { removePhotoAction } from '../actions'

/** What the original holds besides its picture, and what can be done with it. */
export function OriginalSection({
  job,
  photo,
  fileName,
  description,
}: {
  readonly job: string
  readonly photo: string
  readonly fileName: string
  readonly description: Result<OriginalDescription>
}) {
  return (
    <section aria-labelledby="original">
      <h2 id="original" className="text-lead font-bold">
        The original
      </h2>
      {description.ok ? (
        <>
          <p className="text-ink-soft">
            {kindOf(description.value.mediaType)},{' '}
            {sizeOf(description.value.byteLength)}, as it arrived.
          </p>
          <ul className="mt-2 flex list-disc flex-col gap-1 pl-5">
            {description.value.holds.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <p className="mt-2">
            Sheets, write-ups and the pictures shown here hold none of that.
            Whoever gets the original gets all of it.
          </p>
        </>
      ) : (
        <p className="text-late font-semibold">{description.refusal.detail}</p>
      )}
      <div className="mt-4 flex flex-wrap items-start gap-3">
        <a
          href={`/api/photos/${photo}/original`}
          download={fileName}
          className="button"
        >
          Save the original
        </a>
        <ActionForm
          action={removePhotoAction.bind(null, job, photo)}
          label="Remove this photo"
        >
          <SubmitButton quiet pendingText="Removing …">
            Put it in the bin
          </SubmitButton>
        </ActionForm>
      </div>
    </section>
  )
}

function kindOf(mediaType: string): string {
  return (mediaType.split('/')[1] ?? '').toUpperCase().replace('WEBP', 'WebP')
}

function sizeOf(bytes: number): string {
  return bytes < 100_000
    ? `${Math.max(1, Math.round(bytes / 1000))} kB`
    : `${(bytes / 1_000_000).toFixed(1)} MB`
}
