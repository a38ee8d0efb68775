import type { Photo } from '#core/journal/journal'
import {
  ActionForm,
  SubmitButton,
} from '../../../../../_components/action-form.client'
import { TextField } from '../../../../../_components/field.client'
import { UsualViews, viewField } from '../../../../../_components/usual-views'
import { nameViewAction } from '../actions'

/** Which view a photo shows. */
export function ViewSection({
  job,
  photo,
}: {
  readonly job: string
  readonly photo: Photo
}) {
  return (
    <section aria-labelledby="view">
      <h2 id="view" className="text-lead font-bold">
        Which view is it?
      </h2>
      <p className="text-ink-soft">
        Before and after photos of one view make a pair.
      </p>
      <ActionForm
        action={nameViewAction.bind(null, job, photo.id)}
        label="The view it shows"
        className="mt-3 flex flex-col gap-3"
      >
        <TextField
          {...viewField}
          label="View"
          defaultValue={photo.view ?? ''}
          optional
        />
        <UsualViews />
        <div>
          <SubmitButton quiet>Save the view</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
