import Link from 'next/link'
import type { AirReading } from '#core/air/reading'
import type { BenchEntry } from '#core/bench/bench'
import { placeOf } from '#core/bench/judge-bench'
import type { DryCheck } from '#core/drying/dry-check'
import type { Use } from '#core/drying/ready-for'
import type { Photo } from '#core/journal/journal'
import { type MomentStyle, momentWords, spanWords } from '#core/time/moments'
import {
  type GapDrawing,
  planGapDrawing,
} from '#core/timeline/plan-gap-drawing'
import type { Lane, LaneStep } from '#core/timeline/timeline'
import type { Instant } from '#core/units'
import { betweenSteps } from '#core/write-ups/english-steps'
import { capitalised } from '#core/write-ups/english-words'
import type { SurfaceWork } from '#core/write-ups/surface-work'
import { toldStep } from '#core/write-ups/told-step'
import { stepName } from '../../../../_words'
import { GapView } from './gap-view'

export type LaneStyle = MomentStyle & { readonly now: Instant }

/** One surface from its first step to what comes next, as a list along a rail. */
export function LaneView({
  job,
  lane,
  work,
  photos,
  products,
  air,
  entry,
  style,
}: {
  readonly job: string
  readonly lane: Lane
  /** What was done to the surface, as texts tell it. */
  readonly work: SurfaceWork | undefined
  readonly photos: ReadonlyMap<string, Photo>
  readonly products: ReadonlyMap<string, string>
  readonly air: readonly AirReading[]
  /** What this surface puts on the bench. */
  readonly entry: BenchEntry | undefined
  readonly style: LaneStyle
}) {
  return (
    <section
      aria-label={`${lane.piece.name} ${lane.surface.name}`}
      className="card @container min-w-0 p-4 print:mb-4 print:border-0 print:p-0"
    >
      <h3 className="mb-3 break-after-avoid text-[1.125rem] font-bold print:mb-1">
        {lane.surface.name}
      </h3>
      {lane.next !== undefined && (
        <NextView next={lane.next} entry={entry} style={style} />
      )}
      {lane.steps.length === 0 ? (
        <p className="text-ink-soft">Nothing done to it yet.</p>
      ) : (
        <details className="opens-on-paper mt-2">
          <summary className="link flex min-h-12 cursor-pointer items-center break-after-avoid print:block print:text-(--ink) print:no-underline">
            {lane.steps.length === 1
              ? 'The one step'
              : `All ${lane.steps.length} steps, the newest first`}
          </summary>
          <ol reversed className="mt-2 flex flex-col print:block">
            {lane.steps.toReversed().map((step) => (
              <li key={step.id}>
                <StepView
                  job={job}
                  step={step}
                  product={
                    step.productId === undefined
                      ? undefined
                      : products.get(step.productId)
                  }
                  photos={photos}
                  style={style}
                />
                {lane.checks
                  .filter((check) => check.to === step.id)
                  .map((check) => (
                    <GapView
                      key={check.from}
                      surface={lane.surface.id}
                      between={betweenWords(lane, work, check)}
                      check={check}
                      drawing={drawingOf(lane, check, air)}
                      units={style.units}
                    />
                  ))}
              </li>
            ))}
          </ol>
        </details>
      )}
    </section>
  )
}

/** Which two steps a wait ran between, where they do not stand side by side. */
function betweenWords(
  lane: Lane,
  work: SurfaceWork | undefined,
  check: DryCheck,
): string | undefined {
  const index = lane.steps.findIndex((step) => step.id === check.to)
  const earlier = lane.steps.find((step) => step.id === check.from)
  const later = lane.steps[index]
  return earlier === undefined ||
    later === undefined ||
    lane.steps[index - 1] === earlier
    ? undefined
    : capitalised(betweenSteps(toldStep(earlier, work), toldStep(later, work)))
}

function drawingOf(
  lane: Lane,
  check: DryCheck,
  air: readonly AirReading[],
): GapDrawing | undefined {
  const coat = lane.steps.find((step) => step.id === check.from)
  return coat?.finished === undefined
    ? undefined
    : planGapDrawing(check, coat.finished.earliest, air)
}

function StepView({
  job,
  step,
  product,
  photos,
  style,
}: {
  readonly job: string
  readonly step: LaneStep
  readonly product: string | undefined
  readonly photos: ReadonlyMap<string, Photo>
  readonly style: LaneStyle
}) {
  const shown = step.photoIds.flatMap((id) => photos.get(id) ?? [])
  return (
    <div className="border-line-strong group/step print-as-drawn relative break-inside-avoid border-l-4 pb-5 pl-4 print:pb-3">
      <span
        aria-hidden="true"
        className="border-paper bg-press absolute top-1 -left-3 size-5 rounded-full border-4"
      />
      <Link
        prefetch={false}
        href={`/jobs/${job}/steps/${step.id}`}
        className="-my-1 inline-flex min-h-11 min-w-11 items-center font-bold underline decoration-transparent underline-offset-4 hover:decoration-current"
      >
        {stepName(step.kind, step.coat)}
      </Link>
      {product !== undefined && <p>{product}</p>}
      <p className="text-ink-soft text-small">{whenOf(step, style)}</p>
      {/* On paper, where some of its photos had not come when it was printed. */}
      {shown.length > 0 && (
        <p className="text-small hidden print:group-has-[img[data-missing]]/step:block">
          {shown.length === 1 ? '1 photo' : `${shown.length} photos`}
        </p>
      )}
      {shown.length > 0 && (
        <ul className="mt-2 flex flex-wrap gap-2 print:block print:not-has-[img:not([data-missing])]:hidden">
          {shown.map((photo) => (
            <li
              key={photo.id}
              className="print:mr-1 print:mb-1 print:inline-block print:align-top"
            >
              <a
                href={`/jobs/${job}/photos/${photo.id}`}
                className="block overflow-hidden rounded-md"
              >
                <img
                  src={`/api/photos/${photo.id}/thumb`}
                  alt={`${stepName(step.kind, step.coat)}, ${momentWords(photo.taken.at, style.now, style)}`}
                  width={photo.width}
                  height={photo.height}
                  loading="lazy"
                  className="bg-well size-20 object-cover"
                />
              </a>
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

function whenOf(step: LaneStep, style: LaneStyle): string {
  if (step.started === undefined || step.finished === undefined) {
    return 'No photo and no time yet'
  }
  return spanWords(step.started.at, step.finished.at, style.now, style)
}

function NextView({
  next,
  entry,
  style,
}: {
  readonly next: NonNullable<Lane['next']>
  readonly entry: BenchEntry | undefined
  readonly style: LaneStyle
}) {
  const { curedBy } = next
  const { now } = style
  const placed = entry === undefined ? undefined : placeOf(entry, now)
  const readyAt = placed?.entry.readyAt
  const recoatBy = placed?.entry.recoatBy
  return (
    <>
      {(readyAt ?? recoatBy ?? curedBy) !== undefined && (
        <dl className="mt-1 grid break-inside-avoid break-after-avoid gap-x-4 gap-y-1 @min-[13rem]:grid-cols-[auto_minmax(0,1fr)]">
          {readyAt !== undefined && placed?.place === 'wet' && (
            <Moment term="Ready">
              {spanWords(readyAt.earliest, readyAt.latest, now, style)}
            </Moment>
          )}
          {readyAt !== undefined &&
            (placed?.place === 'ready' || placed?.place === 'closing') && (
              <Moment term="Ready since">
                {momentWords(readyAt.latest, now, style)}
              </Moment>
            )}
          {recoatBy !== undefined &&
            placed?.place !== 'curing' &&
            (placed?.place === 'past' ? (
              <Moment term="Window passed">
                {momentWords(recoatBy, now, style)}
              </Moment>
            ) : (
              <Moment term="Recoat by">
                {spanWords(
                  recoatBy,
                  placed?.entry.recoatByLatest ?? recoatBy,
                  now,
                  style,
                )}
              </Moment>
            ))}
          {curedBy !== undefined && (
            <Moment term={curedBy <= now ? 'Cured since' : 'Cured by'}>
              {spanWords(next.curedByEarliest ?? curedBy, curedBy, now, style)}
            </Moment>
          )}
        </dl>
      )}
      <p className="text-ink-soft text-small mt-1">{next.reason}</p>
      {next.uses !== undefined && next.uses.length > 0 && (
        <details className="print:not-[[open]]:hidden">
          <summary className="text-small flex min-h-11 cursor-pointer items-center underline underline-offset-4">
            When it can be used, and how
          </summary>
          <ul className="flex flex-col gap-2">
            {next.uses.map((use) => (
              <li key={use.use}>
                <span className="font-semibold">
                  {useWords[use.use]}: {momentWords(use.at, now, style)}
                </span>
                <span className="text-ink-soft text-small block">
                  {use.reason}
                </span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}

const useWords: Record<Use, string> = {
  sand: 'Sand it',
  handle: 'Handle it, hardware back on',
  tape: 'Tape over it',
  line: 'Paste a liner on it',
  stack: 'Stack on it',
  deliver: 'Wrap and deliver it',
  cure: 'Use it without care',
}

function Moment({
  term,
  children,
}: {
  readonly term: string
  readonly children: string
}) {
  return (
    <>
      <dt className="text-ink-soft">{term}</dt>
      <dd className="font-bold">{children}</dd>
    </>
  )
}
