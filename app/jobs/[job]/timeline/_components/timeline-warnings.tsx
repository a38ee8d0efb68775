import Link from 'next/link'
import type { Journal } from '#core/journal/journal'
import type { DryCheck } from '#core/drying/dry-check'
import { lengthOfTime } from '#core/time/length-of-time'
import type { Timeline } from '#core/timeline/timeline'
import { VerdictChip } from '../../../../_components/verdict'

/** What needs a look, gathered on top: recoats made too soon, windows that passed, clocks that nobody checked. */
export function TimelineWarnings({
  job,
  timeline,
  journal,
}: {
  readonly job: string
  readonly timeline: Timeline
  readonly journal: Journal
}) {
  const wrong = timeline.lanes.flatMap((lane) =>
    lane.checks
      .filter(
        (check) =>
          check.verdict === 'too-soon' || check.verdict === 'past-window',
      )
      .map((check) => ({ lane, check })),
  )
  if (wrong.length === 0 && timeline.warnings.length === 0) return null
  const pieces = journal.pieces.length
  return (
    <section
      aria-labelledby="needs-a-look"
      className="card mb-8 p-4 print:mb-4 print:border-0 print:p-0"
    >
      <h2
        id="needs-a-look"
        className="text-lead mb-3 break-after-avoid font-bold"
      >
        Needs a look
      </h2>
      <ul className="divide-line flex flex-col divide-y print:block">
        {wrong.map(({ lane, check }) => (
          <li
            key={`${lane.surface.id} ${check.from} ${check.to}`}
            className="flex break-inside-avoid flex-col gap-1 py-3 first:pt-0 last:pb-0 print:py-1.5"
          >
            <span className="flex flex-wrap items-center gap-2">
              <VerdictChip verdict={check.verdict} />
              <a
                href={`#check-${lane.surface.id}-${check.from}-${check.to}`}
                className="link inline-flex min-h-11 min-w-11 items-center"
              >
                {pieces > 1 ? `${lane.piece.name}, ` : ''}
                {lane.surface.name}
              </a>
            </span>
            <span>{inShort(check)}</span>
          </li>
        ))}
        {timeline.warnings.map((warning) => (
          <li
            key={`${warning.kind} ${warning.stepId ?? ''} ${warning.cameraId ?? ''} ${warning.detail}`}
            className="break-inside-avoid py-3 first:pt-0 last:pb-0 print:py-1.5"
          >
            {warning.detail}
            {warning.kind === 'clock-unchecked' && (
              <>
                {' '}
                <Link
                  prefetch={false}
                  href="/workshop#cameras"
                  className="link-in-line print:hidden"
                >
                  Set its clock
                </Link>
              </>
            )}
            {warning.stepId !== undefined && (
              <>
                {' '}
                <Link
                  prefetch={false}
                  href={`/jobs/${job}/steps/${warning.stepId}`}
                  className="link-in-line print:hidden"
                >
                  Open the step
                </Link>
              </>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}

/** The numbers alone; the lane has the whole reason. */
function inShort({ elapsed, label, required, verdict }: DryCheck): string {
  const waited =
    elapsed.high < 0 ? 'No wait' : lengthOfTime(elapsed.high, 'down')
  if (verdict === 'too-soon' && required !== undefined) {
    return `${waited} between coats; at least ${lengthOfTime(required, 'up')} was needed.`
  }
  return label.max === undefined
    ? `${waited} between coats.`
    : `${waited} between coats; the label allows ${lengthOfTime(label.max)}.`
}
