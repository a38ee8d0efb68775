import type { Journal, Photo } from '#core/journal/journal'
import { flawsOf } from '#core/write-ups/flaws'
import {
  ActionForm,
  SubmitButton,
} from '../../../../../_components/action-form.client'
import { TextField } from '../../../../../_components/field.client'
import { showFlawAction } from '../actions'

/** Which flaw a photo is there to show, out of those known or a new one. */
export function FlawSection({
  job,
  photo,
  journal,
}: {
  readonly job: string
  readonly photo: Photo
  readonly journal: Journal
}) {
  const known = new Set(
    journal.pieces.flatMap((piece) =>
      flawsOf(piece, journal).map(({ words }) => words),
    ),
  )
  return (
    <section aria-labelledby="flaw">
      <h2 id="flaw" className="text-lead font-bold">
        Does it show a flaw?
      </h2>
      <p className="text-ink-soft">
        The listing then names it, with this photo.
      </p>
      <ActionForm
        action={showFlawAction.bind(null, job, photo.id)}
        label="The flaw it shows"
        className="mt-3 flex flex-col gap-3"
      >
        <TextField
          name="flaw"
          label="The flaw"
          defaultValue={photo.flaw ?? ''}
          list="known-flaws"
          autoComplete="off"
          maxLength={200}
          optional
        />
        <datalist id="known-flaws">
          {[...known].map((words) => (
            <option key={words} value={words} />
          ))}
        </datalist>
        <div>
          <SubmitButton quiet>Save the flaw</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
