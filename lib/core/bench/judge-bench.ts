import type { Bench, BenchEntry } from '#core/bench/bench'
import type { ComingWindow } from '#core/drying/forecast-next'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'

/** Where a surface stands on the bench. */
export type BenchPlace =
  'wet' | 'ready' | 'closing' | 'past' | 'curing' | 'unknown' | 'done'

/**
 * The bench as of an instant: which surfaces are wet, ready, closing, past, curing, unknown or done.
 *
 * A surface counts as ready only once the latest moment it may become so is over. Where a label has several
 * windows, an entry carries the times of the one that is open or opens next.
 */
export function judgeBench(entries: readonly BenchEntry[], at: Instant): Bench {
  const lists: Record<BenchPlace, BenchEntry[]> = {
    wet: [],
    ready: [],
    closing: [],
    past: [],
    curing: [],
    unknown: [],
    done: [],
  }
  for (const entry of entries) {
    const placed = placeOf(entry, at)
    if (placed !== undefined) lists[placed.place].push(placed.entry)
  }
  const by =
    (moment: (entry: BenchEntry) => number) =>
    (one: BenchEntry, other: BenchEntry) =>
      compare(moment(one), moment(other)) || one.coatedAt - other.coatedAt
  return {
    at,
    wet: lists.wet.sort(by((entry) => entry.readyAt?.latest ?? Infinity)),
    ready: lists.ready.sort(by((entry) => entry.recoatBy ?? Infinity)),
    closing: lists.closing.sort(by((entry) => entry.recoatBy ?? Infinity)),
    past: lists.past.sort(by((entry) => entry.recoatBy ?? Infinity)),
    curing: lists.curing.sort(by((entry) => entry.curedBy ?? Infinity)),
    unknown: lists.unknown.sort(by((entry) => 0 - entry.coatedAt)),
    done: lists.done.sort(by((entry) => 0 - entry.coatedAt)),
  }
}

function compare(one: number, other: number): number {
  return one === other ? 0 : one < other ? -1 : 1
}

/**
 * Where an entry stands as of an instant, with the times of the window that is open or opens next; undefined once it is off
 * the bench.
 */
export function placeOf(
  entry: BenchEntry,
  at: Instant,
): { readonly place: BenchPlace; readonly entry: BenchEntry } | undefined {
  const windows = windowsOf(entry)
  // Nobody coats a finished piece again, but wet paint is wet.
  const isWet = windows.every((window) => at < window.opens.latest)
  if (entry.job.finished && !(windows.length > 0 && isWet)) {
    return entry.curedBy !== undefined && at < entry.curedBy
      ? { place: 'curing', entry }
      : undefined
  }
  const { doneFrom } = entry
  if (
    doneFrom !== undefined &&
    doneFrom <= at &&
    !(windows.length > 0 && isWet)
  )
    return { place: 'done', entry }
  if (windows.length === 0) return { place: 'unknown', entry }
  const open = windows.find(
    (window) =>
      window.needs === undefined &&
      window.opens.latest <= at &&
      (window.closes === undefined || at <= window.closes),
  )
  if (open !== undefined) {
    return {
      place:
        open.closes !== undefined &&
        open.closes <= addMinutes(at, minutesPerDay)
          ? 'closing'
          : 'ready',
      entry: withWindow(entry, open),
    }
  }
  const coming = windows
    .filter((window) => at < window.opens.latest)
    .sort((one, other) => one.opens.latest - other.opens.latest)[0]
  return coming === undefined
    ? { place: 'past', entry }
    : { place: 'wet', entry: withWindow(entry, coming) }
}

/** The windows that can be used: one that closes before it opens cannot. */
function windowsOf(entry: BenchEntry): readonly ComingWindow[] {
  if (entry.readyAt === undefined) return []
  const windows: readonly ComingWindow[] =
    entry.windows !== undefined && entry.windows.length > 0
      ? entry.windows
      : [
          {
            opens: entry.readyAt,
            ...(entry.recoatBy !== undefined && { closes: entry.recoatBy }),
            ...(entry.recoatByLatest !== undefined && {
              closesLatest: entry.recoatByLatest,
            }),
          },
        ]
  const usable = windows.filter(
    (window) =>
      window.closes === undefined || window.opens.latest <= window.closes,
  )
  return usable.length > 0 ? usable : windows
}

function withWindow(entry: BenchEntry, window: ComingWindow): BenchEntry {
  const placed = { ...entry, readyAt: window.opens }
  delete placed.recoatBy
  delete placed.recoatByLatest
  if (window.closes !== undefined) placed.recoatBy = window.closes
  if (window.closesLatest !== undefined)
    placed.recoatByLatest = window.closesLatest
  return placed
}
