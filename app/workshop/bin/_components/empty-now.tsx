import { type BinRules, daysWords } from '#core/bin/bin-times'
import {
  ActionForm,
  SubmitButton,
} from '../../../_components/action-form.client'
import { ChoiceGroup } from '../../../_components/field.client'
import { emptyBinAction } from '../actions'

/** The way to be rid of all that is in the bin at once, once its owner has ticked that it is meant. */
export function EmptyNow({ rules }: { readonly rules: BinRules }) {
  return (
    <details className="mt-6 max-w-prose">
      <summary className="link flex min-h-12 cursor-pointer items-center">
        Empty the bin now
      </summary>
      <ActionForm
        action={emptyBinAction}
        className="mt-2 flex flex-col gap-4"
        label="Empty the bin"
      >
        <p>
          Everything in the bin goes for good: the jobs, pieces and surfaces
          with what was done to them, and the photos.{' '}
          {rules.originalDays > 0 &&
            `The photo files stay on the disk for ${daysWords(rules.originalDays)} more. `}
          Backups keep what they hold.
        </p>
        <ChoiceGroup name="sure" label="There is no way back">
          <label className="choice">
            <input type="checkbox" name="sure" value="yes" />I know that it
            cannot be brought back
          </label>
        </ChoiceGroup>
        <div>
          <SubmitButton quiet pendingText="Emptying …">
            Empty the bin
          </SubmitButton>
        </div>
      </ActionForm>
    </details>
  )
}
