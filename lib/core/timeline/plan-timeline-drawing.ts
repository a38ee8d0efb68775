import type { Verdict } from '#core/drying/dry-check'
import type { Photo } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { MomentStyle } from '#core/time/moments'
import { clockDays } from '#core/timeline/clock-days'
import { type ClockDay, nightsOf } from '#core/timeline/clock-ticks'
import {
  type FoldScale,
  foldScale,
  momentAt,
  placeAt,
} from '#core/timeline/fold-scale'
import type { Placed } from '#core/timeline/gather-marks'
import type { Lane } from '#core/timeline/timeline'
import { type Instant, addMinutes } from '#core/units'

/** A step on a lane: places in drawn minutes, as everywhere in a drawing. */
export type StepMark = Placed & {
  readonly id: string
  readonly kind: StepKind
  readonly coat?: number
}
/** A wait between two steps, with what was judged of it. */
export type GapBar = Placed & {
  readonly earlierId: string
  readonly laterId: string
  readonly verdict: Verdict
  /** Where it was dry enough, or would have been. */
  readonly dryAt?: number
}
export type PhotoMark = Placed & { readonly id: string }

export type DrawnLane = {
  readonly surfaceId: string
  readonly surface: string
  readonly piece: string
  readonly steps: readonly StepMark[]
  readonly gaps: readonly GapBar[]
  readonly photos: readonly PhotoMark[]
  /** The coat that is still drying: from its end to when it is ready. */
  readonly drying?: Placed
}

/** The whole timeline of a job, to be drawn with time across and a lane for each surface. */
export type TimelineDrawing = {
  readonly scale: FoldScale
  readonly days: readonly ClockDay[]
  readonly nights: readonly Placed[]
  /** Where the clock is put forward (minutes above 0) or back. */
  readonly changes: readonly {
    readonly place: number
    readonly byMinutes: number
  }[]
  readonly lanes: readonly DrawnLane[]
  /** The present, where it lies within the drawing. */
  readonly now?: number
}

/**
 * A timeline as a drawing, whatever its size on the screen; undefined while nothing on it has a time.
 *
 * @param photos those of the job; each stands on the lanes of the surfaces that it shows
 */
export function planTimelineDrawing(
  lanes: readonly Lane[],
  photos: readonly Photo[],
  now: Instant,
  style: MomentStyle,
): TimelineDrawing | undefined {
  const moments = [
    ...photos.map(({ taken }) => taken.at),
    ...lanes.flatMap(({ steps }) =>
      steps.flatMap(({ started, finished }) =>
        started === undefined || finished === undefined
          ? []
          : [started.at, finished.at],
      ),
    ),
    ...lanes.flatMap(({ next }) =>
      next?.readyAt !== undefined && next.readyAt.latest > now
        ? [now, next.readyAt.latest]
        : [],
    ),
  ]
  if (moments.length === 0) return undefined
  const scale = foldScale(moments)
  const first = momentAt(scale, 0)
  const last = momentAt(scale, scale.length)
  const days = clockDays(
    scale.stretches.filter(({ isFolded }) => !isFolded),
    now,
    style,
  )
  return {
    scale,
    days,
    nights: nightsOf(days)
      .map(({ from, to }) => ({
        from: Math.max(0, placeAt(scale, from)),
        to: Math.min(scale.length, placeAt(scale, to)),
      }))
      .filter(({ from, to }) => to > from)
      .filter((night) => !isInFold(scale, night)),
    changes: days.flatMap(({ change }) =>
      change === undefined || change.at < first || change.at > last
        ? []
        : {
            place: placeAt(scale, change.at),
            byMinutes: change.byMinutes,
          },
    ),
    lanes: lanes.map((lane) => drawnLane(lane, photos, scale, now)),
    ...(now >= first && now <= last && { now: placeAt(scale, now) }),
  }
}

function drawnLane(
  lane: Lane,
  photos: readonly Photo[],
  scale: FoldScale,
  now: Instant,
): DrawnLane {
  const ends = new Map(lane.steps.map((step) => [step.id, step] as const))
  const readyAt = lane.next?.readyAt
  const wetFrom = ends.get(lane.next?.stepId ?? '')?.finished
  return {
    surfaceId: lane.surface.id,
    surface: lane.surface.name,
    piece: lane.piece.name,
    steps: lane.steps.flatMap(({ id, kind, coat, started, finished }) =>
      started === undefined || finished === undefined
        ? []
        : {
            id,
            kind,
            ...(coat !== undefined && { coat }),
            from: placeAt(scale, started.at),
            to: placeAt(scale, finished.at),
          },
    ),
    gaps: lane.checks.flatMap((check) => {
      const end = ends.get(check.from)?.finished
      const start = ends.get(check.to)?.started
      if (end === undefined || start === undefined || start.at <= end.at)
        return []
      return {
        earlierId: check.from,
        laterId: check.to,
        verdict: check.verdict,
        from: placeAt(scale, end.at),
        to: placeAt(scale, start.at),
        ...(check.required !== undefined && {
          dryAt: placeAt(scale, addMinutes(end.at, check.required)),
        }),
      }
    }),
    photos: photos
      .filter(({ surfaceIds }) => surfaceIds.includes(lane.surface.id))
      .map(({ id, taken }) => {
        const place = placeAt(scale, taken.at)
        return { id, from: place, to: place }
      })
      .toSorted((one, other) => one.from - other.from),
    ...(readyAt !== undefined &&
      wetFrom !== undefined &&
      readyAt.latest > now && {
        drying: {
          from: placeAt(scale, wetFrom.at),
          to: placeAt(scale, readyAt.latest),
        },
      }),
  }
}

/** In a fold nights are too narrow to be told apart. */
function isInFold({ stretches }: FoldScale, { from, to }: Placed): boolean {
  return stretches.some(
    ({ isFolded, place, length }) =>
      isFolded && from >= place && to <= place + length,
  )
}
