import type { Journal } from '#core/journal/journal'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { type StepOrderCounts, passageKey } from '#core/placing/step-order'

/** How often each kind of step followed another on a surface in these jobs: what they teach about the next job. */
export function countStepOrder(journals: readonly Journal[]): StepOrderCounts {
  const counts = new Map<string, number>()
  for (const journal of journals) {
    const steps = stepsInOrder(journal).map(({ step }) => step)
    for (const surface of journal.pieces.flatMap((piece) => piece.surfaces)) {
      const own = steps.filter((step) =>
        step.surfaces.some((on) => on.surfaceId === surface.id),
      )
      for (const [index, step] of own.entries()) {
        const key = passageKey(own[index - 1]?.kind, step.kind)
        counts.set(key, (counts.get(key) ?? 0) + 1)
      }
    }
  }
  return counts
}
