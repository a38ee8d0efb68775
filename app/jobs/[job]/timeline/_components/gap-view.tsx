import Link from 'next/link'
import type { DryCheck } from '#core/drying/dry-check'
import { lengthOfTime } from '#core/time/length-of-time'
import type { GapDrawing } from '#core/timeline/plan-gap-drawing'
import { VerdictChip } from '../../../../_components/verdict'
import { GapDrawingView } from './gap-drawing-view'

/** The gap between two steps: how long it was, how dry it got, the verdict in words and shape, and what to do. */
export function GapView({
  surface,
  between,
  check,
  drawing,
  units,
}: {
  readonly surface: string
  /** The two steps by name, where others lie between them. */
  readonly between: string | undefined
  readonly check: DryCheck
  readonly drawing: GapDrawing | undefined
  readonly units: 'metric' | 'us'
}) {
  const tone =
    check.verdict === 'too-soon'
      ? 'border-wet'
      : check.verdict === 'in-window'
        ? 'border-sound'
        : check.verdict === 'past-window'
          ? 'border-late'
          : check.verdict === 'unsure'
            ? 'border-doubt'
            : 'border-line-strong'
  return (
    <div
      id={`check-${surface}-${check.from}-${check.to}`}
      className={`scroll-mt-4 border-l-4 pt-1 pb-5 pl-4 print:pb-3 ${tone} ${check.verdict === 'too-soon' ? '' : 'border-dashed'}`}
    >
      <p className="flex flex-wrap items-center gap-x-3 gap-y-1 break-inside-avoid break-after-avoid">
        <VerdictChip verdict={check.verdict} />
        <span className="font-bold">
          {between === undefined ? '' : `${between}: `}
          {elapsedWords(check)}
        </span>
      </p>
      {drawing !== undefined && (
        <GapDrawingView check={check} drawing={drawing} units={units} />
      )}
      <details
        open={check.verdict !== 'in-window'}
        className="mt-1 print:not-[[open]]:hidden"
      >
        <summary className="text-ink-soft text-small flex min-h-11 cursor-pointer items-center underline underline-offset-4 print:hidden">
          Why
        </summary>
        <p>{check.reason}</p>
        {check.advice !== '' && (
          <p className="mt-1 font-semibold">{check.advice}</p>
        )}
        {check.verdict === 'unsure' && (
          <p className="mt-1 print:hidden">
            Are the times right?{' '}
            <Link
              prefetch={false}
              href="/workshop#cameras"
              className="link-in-line"
            >
              Check the cameras’ clocks
            </Link>
            , or tap a photo of either step and type when it was taken.
          </p>
        )}
      </details>
    </div>
  )
}

function elapsedWords(check: DryCheck): string {
  const { low, high } = check.elapsed
  if (high < 0) return 'No wait between: they overlap'
  if (low < 0)
    return `At most ${lengthOfTime(Math.max(0, high), 'down')} between`
  const least = lengthOfTime(low, 'down')
  const most = lengthOfTime(high, 'down')
  return least === most ? `${least} between` : `${least} to ${most} between`
}
