import type { BenchEntry } from '#core/bench/bench'
import type { Journal } from '#core/journal/journal'
import type { LaneStep, Timeline } from '#core/timeline/timeline'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'

/** For so long after its after photos a coat that says nothing of its cure may still get another. Common practice, no source. */
const settledDays = 14

/**
 * What a job puts on the bench: each surface with a coat, its last one, and what comes next for it. What was done to it
 * since, such as a scuff that opens a window again, counts in what comes next; a surface that was stripped has no coat.
 *
 * Steps that nothing tells the time of are passed over. A coat that after photos were taken of is done once it has cured.
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
  const lastAfter = journal.photos
    .filter((photo) => photo.role === 'after')
    .map((photo) => photo.taken.at)
    .toSorted((one, other) => other - one)[0]
  return timeline.lanes.flatMap(
    ({ piece, surface, steps, next }): readonly BenchEntry[] => {
      const last = steps.find((step) => step.id === next?.stepId)
      if (last?.finished === undefined || next === undefined) return []
      // Bare wood that has been worked on since is not waiting for its stripper to dry.
      const isOver = last.kind === 'strip' && last !== steps.findLast(isTimed)
      if (isOver) return []
      const product =
        last.productId === undefined ? undefined : productOf.get(last.productId)
      const { readyAt, recoatBy, recoatByLatest, curedBy, curedByEarliest } =
        next
      const { windows, waitsFor, doubt } = next
      const doneFrom = doneFromOf(last.finished.at, lastAfter, curedBy)
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
          ...(recoatByLatest !== undefined && { recoatByLatest }),
          ...(curedBy !== undefined && { curedBy }),
          ...(curedByEarliest !== undefined && { curedByEarliest }),
          ...(doneFrom !== undefined && { doneFrom }),
          ...(windows !== undefined && { windows }),
          ...(waitsFor !== undefined && { waitsFor }),
          ...(doubt !== undefined && { doubt }),
          reason: next.reason,
        },
      ]
    },
  )
}

function doneFromOf(
  coatedAt: Instant,
  lastAfter: Instant | undefined,
  curedBy: Instant | undefined,
): Instant | undefined {
  if (lastAfter === undefined || lastAfter < coatedAt) return undefined
  const settled = curedBy ?? addMinutes(lastAfter, settledDays * minutesPerDay)
  return settled > lastAfter ? settled : lastAfter
}

function isTimed({ finished }: LaneStep): boolean {
  return finished !== undefined
}
