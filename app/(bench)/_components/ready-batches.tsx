import type { BenchEntry } from '#core/bench/bench'
import { type BenchRow, benchRows } from '#core/bench/bench-rows'
import type { ReadyBatch } from '#core/bench/ready-batches'
import { type MomentStyle, momentWords, spanWords } from '#core/time/moments'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { Doubt, LeftOver, NextStep, RowLink } from './bench-rows'

/** How many rows of what is ready are drawn: it is what people come for. */
const readyRowsShown = 12

/**
 * What is ready, by the product that goes on next to the same set-up. The first rows are drawn, the rest is counted.
 */
export function ReadyBatches({
  batches,
  at,
  style,
}: {
  readonly batches: readonly ReadyBatch[]
  readonly at: Instant
  readonly style: MomentStyle
}) {
  const { cards, left } = firstOf(batches, readyRowsShown)
  return (
    <>
      <ul className="flex flex-col gap-4">
        {cards.map(({ batch, rows }) => (
          <li
            key={`${batch.product?.id ?? ''} ${batch.entries[0]?.surface.id ?? ''}`}
            className="card overflow-hidden"
          >
            <div className="bg-well border-line border-b px-4 py-3">
              <h3 className="font-bold">
                {batch.product?.name ?? 'No product named'}
              </h3>
              {(batch.entries.length > 1 || batch.joining.length > 0) && (
                <p className="text-ink-soft">{batchWords(batch, at, style)}</p>
              )}
            </div>
            <ul className="divide-line divide-y">
              {rows.map((row) => (
                <li key={`${row.entry.step.id} ${row.entry.surface.id}`}>
                  <RowLink
                    row={row}
                    group={
                      closesWithinADay(row.entry, at) ? 'closing' : 'ready'
                    }
                    at={at}
                    style={style}
                    isUnderProduct
                  />
                  <Doubt entry={row.entry} />
                  <NextStep group="ready" row={row} />
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
      <LeftOver count={left} />
    </>
  )
}

function firstOf(
  batches: readonly ReadyBatch[],
  most: number,
): {
  readonly cards: readonly {
    readonly batch: ReadyBatch
    readonly rows: readonly BenchRow[]
  }[]
  readonly left: number
} {
  const cards: { batch: ReadyBatch; rows: readonly BenchRow[] }[] = []
  let drawn = 0
  let left = 0
  for (const batch of batches) {
    const cut =
      drawn < most
        ? benchRows(batch.entries, most - drawn)
        : { rows: [], left: batch.entries.length }
    drawn += cut.rows.length
    left += cut.left
    if (cut.rows.length > 0) cards.push({ batch, rows: cut.rows })
  }
  return { cards, left }
}

function closesWithinADay({ recoatBy }: BenchEntry, at: Instant): boolean {
  return recoatBy !== undefined && recoatBy <= addMinutes(at, minutesPerDay)
}

/** How much one set-up serves, and what may join it. */
function batchWords(
  { entries, joining, together }: ReadyBatch,
  at: Instant,
  style: MomentStyle,
): string {
  const surfaces = `${entries.length} ${entries.length === 1 ? 'surface' : 'surfaces'}`
  if (together === undefined) return `${surfaces}, one set-up.`
  const more = `${joining.length} more ${joining.length === 1 ? 'gets' : 'get'} ready soon`
  const when =
    together.to === undefined
      ? `from ${momentWords(together.from, at, style)} on`
      : spanWords(together.from, together.to, at, style)
  return `${surfaces}; ${more}. All in one go: ${when}.`
}
