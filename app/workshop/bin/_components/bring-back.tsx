import type { BinPlace } from '#services/bin/bin-parts'
import {
  ActionForm,
  SubmitButton,
} from '../../../_components/action-form.client'
import { takeBackAction } from '../actions'

/** The way out of the bin. */
export function BringBack({
  kind,
  jobId,
  id,
  name,
}: BinPlace & { readonly name: string }) {
  return (
    <ActionForm
      action={takeBackAction.bind(null, kind, jobId, id)}
      label={`Bring ${name} back`}
      className="*:[[role=status]]:m-0 *:[[role=status]]:min-h-0"
    >
      <SubmitButton quiet pendingText="Bringing it back …">
        Bring it back
      </SubmitButton>
    </ActionForm>
  )
}
