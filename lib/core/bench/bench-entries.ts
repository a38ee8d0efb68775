import type { BenchEntry } from '#core/bench/bench'
import type { Journal } from '#core/journal/journal'
import type { LaneStep, Timeline } from '#core/timeline/timeline'
import { type Instant, addMinutes, instant, minutesPerDay } from '#core/units'

/** For so long after its after photos a coat that says nothing of its cure may still get another. Common practice, no source. */
const settledDays = 14

/**
 * What a job puts on the bench: each surface with a coat, its last one, and what comes next for it. What was done to it
 * since, such as a scuff that opens a window again, counts in what comes next; a surface that was stripped has no coat.
 *
 * Steps that nothing tells the time of are passed over. A job that has its after photos, with nothing
 * done to it since, is done once all of it has cured.
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
  const entries = timeline.lanes.flatMap(
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
          ...(windows !== undefined && { windows }),
          ...(waitsFor !== undefined && { waitsFor }),
          ...(doubt !== undefined && { doubt }),
          reason: next.reason,
        },
      ]
    },
  )
  const doneFrom = doneFromOf(journal, timeline, entries)
  return doneFrom === undefined
    ? entries
    : entries.map((entry) => ({ ...entry, doneFrom }))
}

/** From when on a job counts as done; undefined while it has no after photos or was worked on since. */
function doneFromOf(
  { photos }: Journal,
  { lanes }: Timeline,
  entries: readonly BenchEntry[],
): Instant | undefined {
  const lastAfter = Math.max(
    ...photos.flatMap(({ role, taken }) => (role === 'after' ? taken.at : [])),
  )
  const steps = lanes.flatMap((lane) => lane.steps)
  const isOver = steps.every(
    ({ finished }) => finished === undefined || finished.at <= lastAfter,
  )
  if (lastAfter === -Infinity || !isOver) return undefined
  const after = instant(lastAfter)
  const settled = addMinutes(after, settledDays * minutesPerDay)
  const moments = entries.map(({ curedBy }) => curedBy ?? settled)
  return instant(Math.max(after, ...moments))
}

function isTimed({ finished }: LaneStep): boolean {
  return finished !== undefined
}
