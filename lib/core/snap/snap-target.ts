import type { Bench, BenchEntry } from '#core/bench/bench'
import type { Method, StepKind } from '#core/journal/vocabulary'
import type { Amount } from '#core/shelf/product'
import { type Instant, minutesBetween, minutesPerDay } from '#core/units'

/** How a step was done, which the next one is likely to repeat. */
export type Doing = {
  readonly method?: Method
  readonly thinningPercent?: number
  readonly grit?: number
  readonly amount?: Amount
}

/** A step that was worked on lately. */
export type RecentStep = Doing & {
  readonly id: string
  readonly job: { readonly id: string; readonly title: string }
  readonly kind: StepKind
  readonly coat?: number
  readonly product?: { readonly id: string; readonly name: string }
  readonly surfaces: readonly SnapSurface[]
  /** When it was last worked on; when it was written down, where nothing tells. */
  readonly usedAt: Instant
  /** It was begun and has no photo and no end yet. */
  readonly isBegun: boolean
}

/** A surface with its piece's name. */
export type SnapSurface = {
  readonly id: string
  readonly name: string
  readonly piece: string
}

/** What the next photo may be of: a step that is there, or the next coat of what is ready for it. */
export type SnapTarget = Omit<RecentStep, 'id' | 'usedAt'> & {
  readonly why: 'last-used' | 'closing' | 'ready'
  /** Since when it is so: last used, or ready. */
  readonly since: Instant
  /** The step that is there; absent for one that the photo begins. */
  readonly step?: string
  /** That step ended more than a day ago: what is photographed now is hardly more of it. */
  readonly isOver: boolean
  /** The steps whose coats are ready for this one. */
  readonly followsSteps: readonly string[]
}

/** For how long a step counts as being worked on. Common practice, no source: a coat on a large piece takes an hour or two. */
const inHandMinutes = 180

/**
 * Whether a step is over: it was last worked on more than a day ago, so that a photo taken now would stretch it over a
 * night and more. Common practice, no source.
 */
export function isStepOver(lastMoment: Instant, at: Instant): boolean {
  return minutesBetween(lastMoment, at) > minutesPerDay
}

/** The next coat of what is ready for it, before it is known how the last one was done. */
export type ComingCoat = Pick<
  SnapTarget,
  'job' | 'kind' | 'coat' | 'product' | 'surfaces' | 'since' | 'followsSteps'
> & { readonly why: 'closing' | 'ready' }

/**
 * What the next photo may be of, the likeliest first: the step in hand, unless its own coat has become ready by now; else
 * what is ready, the window that closes first in front; then the steps that were used lately.
 *
 * @param coming as `comingCoats` gives them
 */
export function snapTargets(
  at: Instant,
  coming: readonly ComingCoat[],
  recent: readonly RecentStep[],
  most = Infinity,
): readonly SnapTarget[] {
  const done = new Set(coming.flatMap((next) => next.followsSteps))
  const isInHand = (step: RecentStep) =>
    minutesBetween(step.usedAt, at) <= inHandMinutes && !done.has(step.id)
  const used = [...recent].sort((one, other) => other.usedAt - one.usedAt)
  return [
    ...used.filter(isInHand).map((step) => asTarget(step, at)),
    ...coming.slice(0, most).map((next) => asBefore(next, recent)),
    ...used.filter((step) => !isInHand(step)).map((step) => asTarget(step, at)),
  ].slice(0, most)
}

function asTarget(
  { id, usedAt, ...step }: RecentStep,
  at: Instant,
): SnapTarget {
  return {
    ...step,
    why: 'last-used',
    since: usedAt,
    step: id,
    isOver: isStepOver(usedAt, at),
    followsSteps: [],
  }
}

/** As its last coat was done. */
function asBefore(next: ComingCoat, recent: readonly RecentStep[]): SnapTarget {
  const [last] = next.followsSteps
  const before = recent.find((step) => step.id === last)
  const { method, thinningPercent, grit, amount } = before ?? {}
  return {
    ...next,
    isOver: false,
    isBegun: false,
    ...(method !== undefined && { method }),
    ...(thinningPercent !== undefined && { thinningPercent }),
    ...(grit !== undefined && { grit }),
    ...(amount !== undefined && { amount }),
  }
}

/**
 * The next coat of each product on what is ready for it, the window that closes first in front; a job's pieces and surfaces
 * together: they are coated in one go.
 */
export function comingCoats(
  bench: Pick<Bench, 'ready' | 'closing'>,
): readonly ComingCoat[] {
  return [
    ...nextCoats(bench.closing, 'closing'),
    ...nextCoats(bench.ready, 'ready'),
  ]
}

function nextCoats(
  entries: readonly BenchEntry[],
  why: 'closing' | 'ready',
): readonly ComingCoat[] {
  const together = new Map<string, BenchEntry[]>()
  for (const entry of entries) {
    if (entry.step.kind === 'strip') continue
    const key = [
      entry.job.id,
      entry.step.kind,
      entry.step.coat,
      entry.product?.id,
    ].join(' ')
    const known = together.get(key)
    if (known === undefined) together.set(key, [entry])
    else known.push(entry)
  }
  return [...together.values()].flatMap((group) => {
    const [first] = group
    if (first === undefined) return []
    return [
      {
        job: { id: first.job.id, title: first.job.title },
        kind: first.step.kind,
        ...(first.step.coat !== undefined && { coat: first.step.coat + 1 }),
        ...(first.product !== undefined && { product: first.product }),
        surfaces: group.map((entry) => ({
          id: entry.surface.id,
          name: entry.surface.name,
          piece: entry.piece.name,
        })),
        why,
        since: first.readyAt?.latest ?? first.coatedAt,
        followsSteps: [...new Set(group.map((entry) => entry.step.id))],
      },
    ]
  })
}
