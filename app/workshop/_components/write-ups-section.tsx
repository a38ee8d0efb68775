import type { WriteUpSettings } from '#core/write-ups/write-up-settings'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { TextArea, TextField } from '../../_components/field.client'
import { changeWriteUpSettingsAction } from '../actions'

const limits = [
  { name: 'listingTitle', label: 'Title of a listing', unit: 'characters' },
  { name: 'listing', label: 'Listing', unit: 'characters' },
  { name: 'video', label: 'Video description', unit: 'bytes' },
  { name: 'caption', label: 'Caption', unit: 'characters' },
] as const

/** How long write-ups may be, and the links and tags that stand in all of them. */
export function WriteUpsSection({
  settings,
}: {
  readonly settings: WriteUpSettings
}) {
  return (
    <section id="write-ups" aria-labelledby="write-ups-title">
      <h2 id="write-ups-title" className="text-lead mb-1 font-bold">
        Write-ups
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        The longest that the places take where you post them. What is too long
        loses its least important sentences, whole.
      </p>
      <ActionForm
        action={changeWriteUpSettingsAction}
        className="flex flex-col gap-4"
        label="Write-ups"
      >
        <div className="field-row field-row-wide">
          {limits.map(({ name, label, unit }) => (
            <TextField
              key={name}
              name={`limits.${name}`}
              label={label}
              unit={unit}
              inputMode="numeric"
              autoComplete="off"
              defaultValue={String(settings.limits[name])}
            />
          ))}
        </div>
        <TextArea
          name="links"
          label="Your links"
          hint="One to a line, with a name before it if you like: Workshop diary https://…"
          defaultValue={settings.links
            .map(({ label, address }) => `${label} ${address}`.trim())
            .join('\n')}
          optional
        />
        <TextField
          name="tags"
          label="Your tags"
          hint="Separate them by commas."
          defaultValue={settings.tags.join(', ')}
          autoComplete="off"
          optional
        />
        <div>
          <SubmitButton>Save for write-ups</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
