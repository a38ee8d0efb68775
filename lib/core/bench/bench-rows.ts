import type { BenchEntry } from '#core/bench/bench'

/** Surfaces of one piece that one step coated together, and that are due together. */
export type BenchRow = {
  /** Of the first of them; what it says of times and product holds for all. */
  readonly entry: BenchEntry
  readonly surfaces: readonly BenchEntry['surface'][]
}

/**
 * Entries as rows, in their order: what was coated together and is due together is one row.
 *
 * @param most how many rows at most; what comes after them is not gone through
 * @returns the rows, and how many entries are left after them
 */
export function benchRows(
  entries: readonly BenchEntry[],
  most = Infinity,
): { readonly rows: readonly BenchRow[]; readonly left: number } {
  const rows = new Map<
    string,
    { entry: BenchEntry; surfaces: BenchEntry['surface'][] }
  >()
  for (const [index, entry] of entries.entries()) {
    const key = [
      entry.piece.id,
      entry.step.id,
      entry.readyAt?.latest,
      entry.recoatBy,
      entry.curedBy,
    ].join(' ')
    const row = rows.get(key)
    if (row !== undefined) row.surfaces.push(entry.surface)
    else if (rows.size >= most) {
      return { rows: [...rows.values()], left: entries.length - index }
    } else rows.set(key, { entry, surfaces: [entry.surface] })
  }
  return { rows: [...rows.values()], left: 0 }
}
