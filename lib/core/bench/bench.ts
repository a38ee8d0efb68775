import type { ComingWindow } from '#core/drying/forecast-next'
import type { StepKind } from '#core/journal/vocabulary'
import type { WaitsFor } from '#core/timeline/timeline'
import type { Instant } from '#core/units'

/** A surface with its last coat and what the label and the air say comes next; does not depend on the present. */
export type BenchEntry = {
  readonly job: {
    readonly id: string
    readonly title: string
    readonly finished: boolean
  }
  readonly piece: { readonly id: string; readonly name: string }
  readonly surface: { readonly id: string; readonly name: string }
  readonly step: {
    readonly id: string
    readonly kind: StepKind
    readonly coat?: number
  }
  readonly product?: { readonly id: string; readonly name: string }
  /** The end of the last coat. */
  readonly coatedAt: Instant
  readonly readyAt?: { readonly earliest: Instant; readonly latest: Instant }
  /** The careful ends of what the times leave open, and the other ends where there is room between them. */
  readonly recoatBy?: Instant
  readonly recoatByLatest?: Instant
  readonly curedBy?: Instant
  readonly curedByEarliest?: Instant
  /** From when on nobody is waiting for its next coat, though the job was not said to be finished: see `benchEntries`. */
  readonly doneFrom?: Instant
  /** All stretches of time in which the next coat may go on: more than one where a label has a dead zone. */
  readonly windows?: readonly ComingWindow[]
  /** What must be told before its times can be; absent where `readyAt` is there. */
  readonly waitsFor?: WaitsFor
  /** Why its times may be off by any amount, as a sentence for the owner; absent where no clock is in doubt. */
  readonly doubt?: string
  readonly reason: string
}

/**
 * The bench as of an instant, each list with the most pressing first.
 *
 * wet: not ready yet. ready: may be coated now. closing: ready, and its window ends within a day.
 * past: its window has passed, scuff first. curing: belongs to a finished job and is not hard yet.
 * unknown: waits for something else than time, such as a label that does not say when. done: of an open job, but it has its
 * after photos and has cured since.
 */
export type Bench = {
  readonly at: Instant
  readonly wet: readonly BenchEntry[]
  readonly ready: readonly BenchEntry[]
  readonly closing: readonly BenchEntry[]
  readonly past: readonly BenchEntry[]
  readonly curing: readonly BenchEntry[]
  readonly unknown: readonly BenchEntry[]
  readonly done: readonly BenchEntry[]
}
