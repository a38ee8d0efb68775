'use client'

import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { SelectField, TextField } from '../../../../_components/field.client'
import { mendPhotoAction, readPhotoFormAction } from '../mending-actions'
import { useLookedUp } from './use-looked-up.client'

type Option = { readonly value: string; readonly text: string }

/** A photo as the form for mending it needs it. */
export type PhotoForm = {
  /** Wall-clock time of the workshop. */
  readonly time: string
  readonly isTyped: boolean
  /** A role, or the id of a step. */
  readonly place: string
  readonly within: readonly Option[]
  readonly roles: readonly Option[]
  readonly steps: readonly Option[]
}

/** When a photo was taken and what it shows, mended where it is looked at. */
export function MendPhoto({
  job,
  photo,
  onMended,
}: {
  readonly job: string
  readonly photo: string
  readonly onMended: (said: string) => void
}) {
  const form = useLookedUp(readPhotoFormAction, job, photo)
  if (typeof form !== 'object') {
    return (
      <p role="status" className="mt-3 min-h-40">
        {form === undefined
          ? 'Looking it up …'
          : 'It could not be had. There may be no network.'}
      </p>
    )
  }
  const mend: FormAction = async (previous, values) => {
    const state = await mendPhotoAction(job, photo, previous, values)
    if (state.outcome === 'saved') onMended(state.message ?? '')
    return state
  }
  return (
    <ActionForm
      action={mend}
      label="Mend the photo"
      className="mt-3 flex flex-col gap-3"
    >
      <input type="hidden" name="time.was" value={form.time} />
      <input type="hidden" name="place.was" value={form.place} />
      <div className="field-row field-row-wide">
        <TextField
          name="time"
          label="Taken"
          type="datetime-local"
          step={1}
          defaultValue={form.time}
        />
        <SelectField name="within" label="Give or take" options={form.within} />
      </div>
      <SelectField
        name="place"
        label="It shows"
        options={form.roles}
        groups={[{ label: 'A step', options: form.steps }]}
        defaultValue={form.place}
      />
      <div className="flex flex-wrap gap-2">
        <SubmitButton>Save the photo</SubmitButton>
        {form.isTyped && (
          <SubmitButton quiet name="forget" value="on">
            Go by its own time again
          </SubmitButton>
        )}
      </div>
    </ActionForm>
  )
}
