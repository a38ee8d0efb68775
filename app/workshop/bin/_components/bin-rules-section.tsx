import type { BinRules } from '#core/bin/bin-times'
import {
  ActionForm,
  SubmitButton,
} from '../../../_components/action-form.client'
import { TextField } from '../../../_components/field.client'
import { changeBinRulesAction } from '../actions'

/** How long the bin keeps things, to be read and changed. */
export function BinRulesSection({
  rules,
  released,
}: {
  readonly rules: BinRules
  readonly released: { readonly count: number; readonly byteLength: number }
}) {
  return (
    <section aria-labelledby="bin-rules" className="mt-10 max-w-prose">
      <h2 id="bin-rules" className="text-lead mb-1 font-bold">
        How long things stay
      </h2>
      <p className="text-ink-soft mb-4">
        Coatbook looks once a day, while it runs. The files of photos go last.
        {released.count > 0 &&
          ` ${released.count === 1 ? '1 photo file is' : `${released.count} photo files are`} still on the disk, ${Math.ceil(released.byteLength / 1_000_000)} MB.`}
      </p>
      <ActionForm
        action={changeBinRulesAction}
        className="flex flex-col gap-4"
        label="How long things stay"
      >
        <div className="field-row">
          <TextField
            name="keepDays"
            label="Days in the bin"
            hint="Left empty, nothing goes by itself."
            inputMode="numeric"
            autoComplete="off"
            defaultValue={String(rules.keepDays ?? '')}
          />
          <TextField
            name="originalDays"
            label="Days more for photo files"
            hint="0: they go at the same time."
            inputMode="numeric"
            autoComplete="off"
            defaultValue={String(rules.originalDays)}
          />
        </div>
        <div>
          <SubmitButton>Save</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
