import type { RuleStrength } from '#core/finish/finish-rule'
import { StrengthMark } from './strength'

/** A rule that the step would pass over as it stands. */
export type DraftFinding = {
  readonly key: string
  readonly strength: RuleStrength
  readonly sentence: string
  readonly reason: string
  readonly advice: string
}

/** What there is to say to a step before it is done; nothing where there is nothing. */
export function DraftFindings({
  findings,
}: {
  readonly findings: readonly DraftFinding[]
}) {
  if (findings.length === 0) return null
  return (
    <div className="border-line-strong bg-well rounded-card border-2 p-4">
      <p className="mb-2 font-bold">Before you go on</p>
      <ul className="flex flex-col gap-3">
        {findings.map((finding) => (
          <li key={finding.key}>
            <StrengthMark strength={finding.strength} />
            <span className="block font-semibold">{finding.sentence}</span>
            <span className="block">{finding.reason}</span>
            <span className="block">{finding.advice}</span>
          </li>
        ))}
      </ul>
    </div>
  )
}
