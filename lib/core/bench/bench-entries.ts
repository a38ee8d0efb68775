import type { BenchEntry } from '#core/bench/bench'
import type { Journal } from '#core/journal/journal'
import type { Timeline } from '#core/timeline/timeline'

/**
 * What a job puts on the bench: each surface whose last step was a coat, and what comes next for it.
 *
 * Steps that nothing tells the time of are passed over.
 */
export function benchEntries(
  journal: Journal,
  timeline: Timeline,
): readonly BenchEntry[] {
  const job = {
    id: journal.job.id,
    title: journal.job.title,
    finished: journal.job.finishedAt !== undefined,
  }
  const productOf = new Map(
    journal.products.map((product) => [product.id, product]),
  )
  return timeline.lanes.flatMap(
    ({ piece, surface, steps, next }): readonly BenchEntry[] => {
      const last = steps.findLast((step) => step.finished !== undefined)
      if (
        last?.finished === undefined ||
        next === undefined ||
        next.stepId !== last.id
      )
        return []
      const product =
        last.productId === undefined ? undefined : productOf.get(last.productId)
      const { readyAt, recoatBy, curedBy, windows } = next
      return [
        {
          job,
          piece,
          surface,
          step: {
            id: last.id,
            kind: last.kind,
            ...(last.coat !== undefined && { coat: last.coat }),
          },
          ...(product !== undefined && {
            product: { id: product.id, name: product.name },
          }),
          coatedAt: last.finished.at,
          ...(readyAt !== undefined && { readyAt }),
          ...(recoatBy !== undefined && { recoatBy }),
          ...(curedBy !== undefined && { curedBy }),
          ...(windows !== undefined && { windows }),
          reason: next.reason,
        },
      ]
    },
  )
}
