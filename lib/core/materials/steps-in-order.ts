import type { Journal, Step } from '#core/journal/journal'
import type { Span } from '#core/time/span'
import { stepTimes, uncheckedCameras } from '#core/timeline/step-times'

/** A step with the moments between which it happened; absent while nothing tells. */
export type TimedStep = {
  readonly step: Step
  readonly started?: Span
  readonly finished?: Span
}

/**
 * The steps of a job in the order they were done, with the same times as on its timeline.
 *
 * A step that nothing dates stands where it was written down.
 */
export function stepsInOrder(journal: Journal): readonly TimedStep[] {
  const unchecked = uncheckedCameras(journal)
  const photos = new Map(journal.photos.map((photo) => [photo.id, photo]))
  const timed = journal.steps.map((step): TimedStep => {
    const own = step.photoIds.flatMap((id) => photos.get(id) ?? [])
    return { step, ...stepTimes(step, own, unchecked)?.time }
  })
  return timed.toSorted(
    (a, b) =>
      (a.started?.at ?? a.step.createdAt) - (b.started?.at ?? b.step.createdAt),
  )
}
