import { type MomentStyle, momentWords } from '#core/time/moments'
import type { Instant } from '#core/units'
import type { WorkshopChange } from '#services/changes/workshop-changes'
import { undoWorkshopChangeAction } from '../_undo-change'
import { ActionForm, type FormState, SubmitButton } from './action-form.client'

/** A change of the shelf or of a camera's clock, with the way back. */
export function OfferedChange({
  change,
  words,
  present,
  style,
  action = undoWorkshopChangeAction,
}: {
  readonly change: WorkshopChange
  /** What was done, such as “Enamel” was added. */
  readonly words: string
  readonly present: Instant
  readonly style: MomentStyle
  /** Where more is to happen once it is undone. */
  readonly action?: (change: string) => Promise<FormState>
}) {
  return (
    <ActionForm
      action={action.bind(null, change.id)}
      label={`Undo: ${words}`}
      className="flex flex-wrap items-center gap-x-3 gap-y-2 *:[[role=status]]:m-0 *:[[role=status]]:min-h-0 *:[[role=status]]:basis-full"
    >
      <p className="min-w-0 flex-[1_1_14rem] break-words">
        Last change: {words}, {momentWords(change.changedAt, present, style)}.
      </p>
      <SubmitButton quiet pendingText="Undoing …">
        Undo it
      </SubmitButton>
    </ActionForm>
  )
}
