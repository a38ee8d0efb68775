import type { Bench, BenchEntry } from '#core/bench/bench'
import { type Instant, addMinutes, minutesPerHour } from '#core/units'

/** A surface that gets ready within a working day is worth waiting for with the set-up. Common practice, no source. */
const longestWaitHours = 8

/** Surfaces that had the same product last and may take their next coat now: one set-up and one cleaning serve them all. */
export type ReadyBatch = {
  readonly product?: { readonly id: string; readonly name: string }
  /** The one whose window closes first comes first. */
  readonly entries: readonly BenchEntry[]
  /** When the first of their windows closes; absent while none does. */
  readonly closes?: Instant
  /** Those with the same product that get ready soon enough to be done in the same go, before any window closes. */
  readonly joining: readonly BenchEntry[]
  /** When all of them, the joining ones too, can be done in one go; absent where none joins. */
  readonly together?: { readonly from: Instant; readonly to?: Instant }
}

/** What is ready on a bench, by the product that goes on next to the same set-up; the batch that closes first comes first. */
export function readyBatches(
  bench: Pick<Bench, 'at' | 'ready' | 'closing' | 'wet'>,
): readonly ReadyBatch[] {
  const ready = byProduct([...bench.closing, ...bench.ready])
  const wet = byProduct(bench.wet)
  return [...ready]
    .map(([key, entries]) => batchOf(entries, wet.get(key) ?? [], bench.at))
    .sort((one, other) => {
      const [first, second] = [one.closes ?? Infinity, other.closes ?? Infinity]
      return first === second ? 0 : first - second
    })
}

function byProduct(
  entries: readonly BenchEntry[],
): ReadonlyMap<string, readonly BenchEntry[]> {
  const found = new Map<string, BenchEntry[]>()
  for (const entry of entries) {
    // Where no product is known nothing tells that two surfaces take the same.
    const key = entry.product?.id ?? `${entry.step.id} ${entry.surface.id}`
    const same = found.get(key)
    if (same === undefined) found.set(key, [entry])
    else same.push(entry)
  }
  return found
}

function batchOf(
  entries: readonly BenchEntry[],
  wet: readonly BenchEntry[],
  at: Instant,
): ReadyBatch {
  const product = entries[0]?.product
  const closes = Math.min(...entries.map((one) => one.recoatBy ?? Infinity))
  const joining: BenchEntry[] = []
  let from: Instant = at
  let to = closes
  for (const entry of wet) {
    const opens = entry.readyAt?.latest
    if (
      opens === undefined ||
      opens > addMinutes(at, longestWaitHours * minutesPerHour)
    )
      continue
    const until = Math.min(to, entry.recoatBy ?? Infinity)
    const since: Instant = opens > from ? opens : from
    if (since > until) continue
    joining.push(entry)
    from = since
    to = until
  }
  return {
    ...(product !== undefined && { product }),
    entries,
    ...(closes !== Infinity && { closes: closes as Instant }),
    joining,
    ...(joining.length > 0 && {
      together: { from, ...(to !== Infinity && { to: to as Instant }) },
    }),
  }
}
