import type { StepKind } from '#core/journal/vocabulary'

/** What a photo may show: the piece before or after the work, or a step, one that is there or a new one. */
export type Place =
  | { readonly as: 'before' }
  | { readonly as: 'after' }
  | {
      readonly as: 'step'
      readonly kind: StepKind
      /** In the job's order, at least one. */
      readonly surfaceIds: readonly string[]
      /** Counts the coats of this kind on these surfaces, from 1; absent for steps that are no coat. */
      readonly coat?: number
      /** The step that it is; absent for a new one. */
      readonly stepId?: string
    }

/** The same text for the same place, and another for every other. */
export function placeKey(place: Place): string {
  if (place.as !== 'step') return place.as
  // A step that is there is itself, whatever is said of it.
  if (place.stepId !== undefined) return `step ${place.stepId}`
  return `new ${place.kind} ${place.coat ?? '-'} ${place.surfaceIds.join(' ')}`
}

/** A place that photos may belong to, and how sure that is. */
export type Proposal = {
  readonly place: Place
  /** From 0 to 1: the share of what could have happened, by the model, in which it did. */
  readonly confidence: number
}

/** Photos taken one right after another that nobody has placed yet, with where they may belong. */
export type PlacingBurst = {
  /** In order of time. */
  readonly photoIds: readonly string[]
  /** What it is proposed for first, then what else it may be; confidences sum up to at most 1. */
  readonly proposals: readonly Proposal[]
}
