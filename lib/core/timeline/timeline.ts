import type { DryCheck, Purpose } from '#core/drying/dry-check'
import type { ComingWindow } from '#core/drying/forecast-next'
import type { ReadyFor } from '#core/drying/ready-for'
import type { StepKind } from '#core/journal/vocabulary'
import type { Span } from '#core/time/span'
import type { Instant } from '#core/units'

/** A step as it happened on one surface. */
export type LaneStep = {
  readonly id: string
  readonly kind: StepKind
  readonly coat?: number
  readonly productId?: string
  /** Absent while nothing tells when it happened. */
  readonly started?: Span
  readonly finished?: Span
  readonly photoIds: readonly string[]
}

/** What the forecast of a coat lacks: its product, the label's time, a checked clock, or air in which it can be told. */
export const waitsFor = ['product', 'label', 'clock', 'air'] as const
export type WaitsFor = (typeof waitsFor)[number]

/** What comes after the last coat on a surface. Times are absent where the label does not say. */
export type Forecast = {
  /** The coat that is drying. */
  readonly stepId: string
  /** When the next coat may go on: earliest and latest, from the spread of the times and the air. */
  readonly readyAt?: { readonly earliest: Instant; readonly latest: Instant }
  /** The careful ends of what the times leave open, and the other ends where there is room between them. */
  readonly recoatBy?: Instant
  readonly recoatByLatest?: Instant
  readonly curedBy?: Instant
  readonly curedByEarliest?: Instant
  /** All stretches of time in which the next coat may go on: more than one where a label has a dead zone. */
  readonly windows?: readonly ComingWindow[]
  /** From when on the coat stands what comes after coating: handling, tape, a liner, stacking, delivery, everything. */
  readonly uses?: readonly ReadyFor[]
  /** What must be told before its times can be; absent where `readyAt` is there. */
  readonly waitsFor?: WaitsFor
  /** Why its times may be off by any amount, as a sentence for the owner: absent where no clock is in doubt. */
  readonly doubt?: string
  /** The arithmetic as a sentence for the owner. */
  readonly reason: string
}

/** One surface of one piece, with all that was done to it. */
export type Lane = {
  readonly piece: { readonly id: string; readonly name: string }
  readonly surface: { readonly id: string; readonly name: string }
  /** In order of time. */
  readonly steps: readonly LaneStep[]
  readonly checks: readonly DryCheck[]
  readonly next?: Forecast
}

/** Something the owner should know that is not a dry check. */
export type TimelineWarning = {
  readonly kind:
    | 'clock-unchecked'
    | 'no-time'
    | 'air-cold'
    | 'air-damp'
    | 'dew-point'
    | 'air-gap'
    | 'air-spike'
    | 'air-stuck'
    | 'order'
    | 'thinning'
  readonly purpose?: Purpose
  readonly stepId?: string
  readonly cameraId?: string
  /** The stretch of time it is about, for faults of the readings. */
  readonly during?: { readonly from: Instant; readonly to: Instant }
  readonly detail: string
}

export type Timeline = {
  readonly lanes: readonly Lane[]
  readonly warnings: readonly TimelineWarning[]
}
