import Link from 'next/link'
import type { Bench, BenchEntry } from '#core/bench/bench'
import { type BenchRow, benchRows } from '#core/bench/bench-rows'
import { type MomentStyle, momentWords, spanWords } from '#core/time/moments'
import type { WaitsFor } from '#core/timeline/timeline'
import type { Instant } from '#core/units'
import { LineIcon } from '../../_components/line-icon'
import { nextStepPath } from '../../_next-step-path'
import { listOf, stepName } from '../../_words'
import { Countdown } from './countdown.client'

/** A list of the bench. */
export type Group = Exclude<keyof Bench, 'at' | 'done'>

/** How many rows of a group are drawn; the rest is counted. */
const rowsShown = 8

const closingPath = 'M4 4v16M20 4v16M8 12h8m-3-3.500 3.500 3.500L13 15.500'

/** The rows of a group, the most pressing first. */
export function BenchRows({
  group,
  entries,
  helpsFor,
  at,
  style,
}: {
  readonly group: Group
  readonly entries: readonly BenchEntry[]
  /** What would shorten the wait of an entry, as sentences. */
  readonly helpsFor: (entry: BenchEntry) => readonly string[]
  readonly at: Instant
  readonly style: MomentStyle
}) {
  const { rows, left } = benchRows(entries, rowsShown)
  return (
    <>
      <ul className="flex flex-col gap-3">
        {rows.map((row) => (
          <li
            key={`${row.entry.step.id} ${row.entry.surface.id}`}
            className="card overflow-hidden"
          >
            <RowLink row={row} group={group} at={at} style={style} />
            <Doubt entry={row.entry} />
            <NextStep group={group} row={row} />
            <Helps helps={helpsFor(row.entry)} />
          </li>
        ))}
      </ul>
      <LeftOver count={left} />
    </>
  )
}

/** What is not drawn, counted. */
export function LeftOver({ count }: { readonly count: number }) {
  if (count === 0) return null
  return (
    <p className="mt-3">
      <Link prefetch={false} href="/jobs" className="link">
        And {count} more {count === 1 ? 'surface' : 'surfaces'}, in the jobs
      </Link>
    </p>
  )
}

/** Where a row stands, when it is due, and what it is: a tap leads to its timeline. */
export function RowLink({
  row: { entry, surfaces },
  group,
  at,
  style,
  isUnderProduct = false,
}: {
  readonly row: BenchRow
  readonly group: Group
  readonly at: Instant
  readonly style: MomentStyle
  /** Whether the product is named above it. */
  readonly isUnderProduct?: boolean
}) {
  const product = isUnderProduct ? undefined : entry.product
  return (
    <Link
      prefetch={false}
      href={`/jobs/${entry.job.id}/timeline`}
      className="hover:bg-well block p-4"
    >
      <span className="text-lead block font-bold">
        {group === 'closing' && (
          <LineIcon
            path={closingPath}
            className="text-late mr-2 inline size-6"
          />
        )}
        {dueWords(group, entry, at, style)}
        <DueIn group={group} entry={entry} at={at} />
      </span>
      <span className="block font-semibold">
        {entry.piece.name}: {listOf(surfaces.map((surface) => surface.name))}
      </span>
      <span className="text-ink-soft block">
        {stepName(entry.step.kind, entry.step.coat)}
        {product === undefined ? '' : ` · ${product.name}`}
      </span>
      <span className="text-ink-soft text-small block">{entry.job.title}</span>
    </Link>
  )
}

function DueIn({
  group,
  entry: { readyAt, recoatBy },
  at,
}: {
  readonly group: Group
  readonly entry: BenchEntry
  readonly at: Instant
}) {
  if (group === 'wet' && readyAt !== undefined)
    return <Countdown milliseconds={readyAt.latest - at} rounding="up" />
  return group === 'closing' && recoatBy !== undefined ? (
    <Countdown milliseconds={recoatBy - at} rounding="down" />
  ) : null
}

/** A clock that nobody has checked puts the times above it in doubt. */
export function Doubt({ entry: { doubt } }: { readonly entry: BenchEntry }) {
  if (doubt === undefined) return null
  return (
    <p className="border-line text-doubt border-t px-4 py-3">
      {doubt}{' '}
      <Link prefetch={false} href="/workshop#cameras" className="link">
        Set its clock
      </Link>
    </p>
  )
}

/** The step that comes next, a tap away. */
export function NextStep({
  group,
  row: { entry, surfaces },
}: {
  readonly group: Group
  readonly row: BenchRow
}) {
  if (group !== 'ready' && group !== 'past') return null
  const name = group === 'past' ? 'Scuff' : 'Next coat'
  return (
    <p className="border-line border-t px-4 py-3">
      <Link
        prefetch={false}
        href={nextStepPath(
          entry.job.id,
          entry.step.id,
          surfaces.map((surface) => surface.id),
          group === 'past' ? 'scuff' : undefined,
        )}
        className="button"
        aria-label={`${name}: ${entry.piece.name}, ${listOf(surfaces.map((surface) => surface.name))}`}
      >
        {name}
      </Link>
    </p>
  )
}

function Helps({ helps }: { readonly helps: readonly string[] }) {
  if (helps.length === 0) return null
  return (
    <details className="border-line border-t px-4">
      <summary className="text-small flex min-h-12 cursor-pointer items-center underline underline-offset-4">
        What would shorten the wait
      </summary>
      <ul className="list-disc pb-3 pl-5">
        {helps.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </details>
  )
}

const waitWords: Readonly<Record<WaitsFor, string>> = {
  product: 'Name the product',
  label: 'Copy the time from the can',
  clock: 'Set the camera’s clock',
  air: 'Too cold or too damp to tell',
}

function dueWords(
  group: Group,
  entry: BenchEntry,
  at: Instant,
  style: MomentStyle,
): string {
  switch (group) {
    case 'wet':
      return entry.readyAt === undefined
        ? 'Ready: cannot tell'
        : `Ready ${spanWords(entry.readyAt.earliest, entry.readyAt.latest, at, style)}`
    case 'closing':
      return entry.recoatBy === undefined
        ? 'Recoat soon'
        : `Recoat by ${spanWords(entry.recoatBy, entry.recoatByLatest ?? entry.recoatBy, at, style)}`
    case 'ready':
      return entry.recoatBy === undefined
        ? `Ready since ${momentWords(entry.readyAt?.latest ?? entry.coatedAt, at, style)}`
        : `Ready, recoat by ${spanWords(entry.recoatBy, entry.recoatByLatest ?? entry.recoatBy, at, style)}`
    case 'past':
      return entry.recoatBy === undefined
        ? 'The window has passed'
        : `Window passed ${momentWords(entry.recoatBy, at, style)}`
    case 'curing':
      return entry.curedBy === undefined
        ? 'Still curing'
        : `Cured by ${spanWords(entry.curedByEarliest ?? entry.curedBy, entry.curedBy, at, style)}`
    case 'unknown':
      return waitWords[entry.waitsFor ?? 'label']
  }
}
