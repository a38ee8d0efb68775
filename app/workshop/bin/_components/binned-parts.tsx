import type { BinnedPart } from '#services/bin/bin-parts'
import { type MomentStyle, momentWords } from '#core/time/moments'
import type { Instant } from '#core/units'
import {
  ActionForm,
  SubmitButton,
} from '../../../_components/action-form.client'
import { takeBackAction } from '../actions'

/** Jobs, pieces and surfaces in the bin, each with its way back. */
export function BinnedParts({
  parts,
  present,
  style,
}: {
  readonly parts: readonly BinnedPart[]
  readonly present: Instant
  readonly style: MomentStyle
}) {
  return (
    <ul className="flex flex-col gap-3">
      {parts.map((part) => (
        <li
          key={part.id}
          className="card flex flex-wrap items-center justify-between gap-x-4 gap-y-2 p-4"
        >
          <div className="min-w-0">
            <p className="font-bold break-words">
              <span className="text-ink-soft font-normal">
                {kindWords[part.kind]}:{' '}
              </span>
              {part.name}
            </p>
            <p className="text-ink-soft text-small break-words">
              {part.kind === 'job' ? '' : `Of ${part.jobTitle}, `}
              {part.kind === 'job' ? 'Removed' : 'removed'}{' '}
              {momentWords(part.removedAt, present, style)}
            </p>
          </div>
          <ActionForm
            action={takeBackAction.bind(null, part.kind, part.jobId, part.id)}
            label={`Bring ${part.name} back`}
          >
            <SubmitButton quiet pendingText="Bringing it back …">
              Bring it back
            </SubmitButton>
          </ActionForm>
        </li>
      ))}
    </ul>
  )
}

const kindWords = { job: 'Job', piece: 'Piece', surface: 'Surface' } as const
