import type { RuleStrength } from '#core/finish/finish-rule'
import type { RuleFinding } from '#core/finish/judge-finish'
import { StrengthMark } from '../../../../_components/strength'
import { listOf } from '../../../../_words'
import { answerFindingAction, openFindingAction } from '../actions'

/** The same rule passed over by the same step on several surfaces is one thing to say. */
type FindingGroup = {
  readonly first: RuleFinding
  readonly surfaces: readonly RuleFinding[]
}

const order: readonly RuleStrength[] = ['must', 'should', 'mind']

/** Where the work passed over a rule of a sound finish. Nothing here forbids: each can be answered, and stays answered. */
export function Findings({
  job,
  findings,
  piecesCount,
  stepWords,
}: {
  readonly job: string
  readonly findings: readonly RuleFinding[]
  readonly piecesCount: number
  /** What a step was, in words: the same rule may be passed over by several. */
  readonly stepWords: (stepId: string) => string
}) {
  if (findings.length === 0) return null
  const isOpen = (one: RuleFinding) => one.answer === undefined
  // What is a danger or spoils the finish stays in sight, with the answer it got.
  const isShown = (one: RuleFinding) => isOpen(one) || one.strength === 'must'
  const shown = grouped(findings.filter(isShown))
  const answered = grouped(findings.filter((one) => !isShown(one)))
  return (
    <section
      aria-labelledby="rules"
      className="card mb-8 p-4 print:mb-4 print:border-0 print:p-0"
    >
      <h2 id="rules" className="text-lead mb-1 break-after-avoid font-bold">
        Rules of a sound finish
      </h2>
      <p className="text-ink-soft mb-2 break-after-avoid">
        {!findings.some(isOpen)
          ? 'All of it is answered.'
          : 'Going by what is written down here. If it was done, say so.'}
      </p>
      <FindingList {...{ job, piecesCount, stepWords }} groups={shown} />
      {answered.length > 0 && (
        <details className="mt-2">
          <summary className="link flex min-h-12 cursor-pointer items-center">
            {answered.length} answered
          </summary>
          <FindingList {...{ job, piecesCount, stepWords }} groups={answered} />
        </details>
      )}
    </section>
  )
}

function FindingList({
  job,
  groups,
  piecesCount,
  stepWords,
}: {
  readonly job: string
  readonly groups: readonly FindingGroup[]
  readonly piecesCount: number
  readonly stepWords: (stepId: string) => string
}) {
  return (
    <ul className="divide-line flex flex-col divide-y print:block">
      {groups.map((group) => (
        <Finding
          key={keyOf(group)}
          job={job}
          group={group}
          piecesCount={piecesCount}
          step={stepWords(group.first.stepId)}
        />
      ))}
    </ul>
  )
}

function Finding({
  job,
  group,
  piecesCount,
  step,
}: {
  readonly job: string
  readonly group: FindingGroup
  readonly piecesCount: number
  readonly step: string
}) {
  const { first, surfaces } = group
  const places = surfaces.map((one) => ({
    rule: one.rule,
    surface: one.surface.id,
    step: one.stepId,
  }))
  const where = listOf(
    surfaces.map(({ piece, surface }) =>
      piecesCount > 1 ? `${piece.name} ${surface.name}` : surface.name,
    ),
  )
  return (
    <li className="break-inside-avoid py-3 print:py-1.5">
      <details className="group">
        <summary className="flex min-h-12 cursor-pointer items-center gap-3">
          <span className="flex min-w-0 grow flex-col gap-0.5">
            <span className="flex flex-wrap items-center gap-x-3">
              <StrengthMark strength={first.strength} />
              <span className="text-ink-soft min-w-0">{where}</span>
            </span>
            <span className="font-semibold">{first.sentence}</span>
            {step !== '' && <span className="text-ink-soft">{step}</span>}
            {first.answer !== undefined && (
              <span className="text-ink-soft">
                {answerWords[first.answer.answer]}
              </span>
            )}
          </span>
          <OpensMark />
        </summary>
        <div className="mt-1 flex flex-col gap-2">
          <p>{first.reason}</p>
          <p className="font-semibold">{first.advice}</p>
          <p className="text-ink-soft text-small">
            Source: {sourceWords(first.source)}
          </p>
          {first.answer === undefined ? (
            <div className="flex flex-wrap gap-2 print:hidden">
              <form
                action={answerFindingAction.bind(null, job, places, 'done')}
                className="min-w-0"
              >
                <button className="button max-w-full wrap-anywhere">
                  Done, not photographed
                </button>
              </form>
              <form
                action={answerFindingAction.bind(null, job, places, 'meant')}
              >
                <button className="button">Meant it</button>
              </form>
            </div>
          ) : (
            <form action={openFindingAction.bind(null, job, places)}>
              <button className="button print:hidden">Take it back</button>
            </form>
          )}
        </div>
      </details>
    </li>
  )
}

/** Tells that a line opens; it turns over when it is open. */
function OpensMark() {
  return (
    <svg
      viewBox="0 0 24 24"
      aria-hidden="true"
      className="text-press size-6 shrink-0 group-open:rotate-180 print:hidden"
    >
      <path
        d="M5 9l7 7 7-7"
        fill="none"
        stroke="currentColor"
        strokeWidth="2.5"
      />
    </svg>
  )
}

/** The core marks each rule of thumb as such; on a page its being common practice says it. */
function sourceWords(source: string): string {
  return source.replaceAll(', no source', '')
}

const answerWords = {
  done: 'Answered: done, not photographed.',
  meant: 'Answered: meant it.',
} as const

function grouped(findings: readonly RuleFinding[]): readonly FindingGroup[] {
  const groups = new Map<
    string,
    { first: RuleFinding; surfaces: RuleFinding[] }
  >()
  for (const finding of findings) {
    const key = [
      finding.rule,
      finding.reason,
      finding.strength,
      finding.answer?.answer,
    ].join('|')
    const group = groups.get(key)
    if (group === undefined) {
      groups.set(key, { first: finding, surfaces: [finding] })
    } else group.surfaces.push(finding)
  }
  return [...groups.values()].sort(
    (one, other) =>
      order.indexOf(one.first.strength) - order.indexOf(other.first.strength),
  )
}

function keyOf({ first }: FindingGroup): string {
  return `${first.rule} ${first.surface.id} ${first.stepId}`
}
