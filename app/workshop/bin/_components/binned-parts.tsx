import type { BinnedPart } from '#services/bin/bin-parts'
import { goesWords } from '#core/bin/bin-times'
import { type MomentStyle, momentWords } from '#core/time/moments'
import type { Instant } from '#core/units'
import { BringBack } from './bring-back'

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
              {momentWords(part.removedAt, present, style)};{' '}
              {goesWords(part.goesAt, present, style)}
            </p>
          </div>
          <BringBack
            kind={part.kind}
            jobId={part.jobId}
            id={part.id}
            name={part.name}
          />
        </li>
      ))}
    </ul>
  )
}

const kindWords = { job: 'Job', piece: 'Piece', surface: 'Surface' } as const
