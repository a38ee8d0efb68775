import type { Journal, Step } from '#core/journal/journal'
import { type Span, exactly, firstOf, lastOf } from '#core/time/span'

/** A step with the moments between which it happened; absent while nothing tells. */
export type TimedStep = {
  readonly step: Step
  readonly started?: Span
  readonly finished?: Span
}

/**
 * The steps of a job in the order they were done.
 *
 * What the owner typed wins over the photos; a step that nothing dates stands where it was written down.
 */
export function stepsInOrder(journal: Journal): readonly TimedStep[] {
  const timed = journal.steps.map((step): TimedStep => {
    const seen = journal.photos
      .filter(
        (photo) => photo.stepId === step.id || step.photoIds.includes(photo.id),
      )
      .map((photo) => photo.taken)
    const typedStart =
      step.startedAt === undefined ? [] : [exactly(step.startedAt)]
    const typedFinish =
      step.finishedAt === undefined ? [] : [exactly(step.finishedAt)]
    const known = [...typedStart, ...seen, ...typedFinish]
    if (known.length === 0) return { step }
    return {
      step,
      started: typedStart[0] ?? firstOf(known),
      finished: typedFinish[0] ?? lastOf(known),
    }
  })
  return timed.toSorted(
    (a, b) =>
      (a.started?.at ?? a.step.createdAt) - (b.started?.at ?? b.step.createdAt),
  )
}
