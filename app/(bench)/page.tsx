import Link from 'next/link'
import type { Bench, BenchEntry } from '#core/bench/bench'
import { lengthOfTime } from '#core/time/length-of-time'
import { type MomentStyle, momentWords, spanWords } from '#core/time/moments'
import type { WaitsFor } from '#core/timeline/timeline'
import { type Instant, minutesBetween } from '#core/units'
import { readBench } from '#services/bench/bench'
import { readHelps } from '#services/bench/read-helps'
import { now } from '#services/clock'
import { readJobs } from '#services/jobs/jobs'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../_components/empty-state'
import { PageHeading } from '../_components/page-heading'
import { nextStepPath } from '../jobs/[job]/_next-step'
import { listOf, stepName } from '../_words'
import { LineIcon } from '../_components/line-icon'
import { requireLocalRequest } from '../_session'
import { KeepCurrent } from './_components/keep-current.client'
import { refreshBenchAction } from './actions'

type Group = Exclude<keyof Bench, 'at'>

/** How many rows of a group are drawn; the rest is counted. */
const rowsShown = 8

const groups: readonly {
  readonly group: Group
  readonly title: string
  readonly lead: string
  readonly tone: string
  readonly path: string
}[] = [
  {
    group: 'closing',
    title: 'Window closing',
    lead: 'May be coated now, and not for much longer without sanding.',
    tone: 'text-late',
    path: 'M4 4v16M20 4v16M8 12h8m-3-3.500 3.500 3.500L13 15.500',
  },
  {
    group: 'ready',
    title: 'Ready now',
    lead: 'May be coated now.',
    tone: 'text-sound',
    path: 'M4 4v16M20 4v16M8 12.500l3 3.200L16.500 9',
  },
  {
    group: 'wet',
    title: 'Still wet',
    lead: 'Leave it be until then.',
    tone: 'text-wet',
    path: 'M12 3c3.500 4.600 5.500 7.600 5.500 10.600A5.500 5.500 0 0 1 12 19a5.500 5.500 0 0 1-5.500-5.400C6.500 10.600 8.500 7.600 12 3z',
  },
  {
    group: 'past',
    title: 'Past the window',
    lead: 'Scuff before the next coat.',
    tone: 'text-late',
    path: 'M10 4v16M3 12h17M15 7l5 5-5 5',
  },
  {
    group: 'unknown',
    title: 'Waits for something else',
    lead: 'When it is ready cannot be told until this is settled.',
    tone: 'text-ink-soft',
    path: 'M4 8l4-4h12v16H8l-4-4zM8.500 12h.1',
  },
  {
    group: 'curing',
    title: 'Finished, still curing',
    lead: 'Dry to the hand, not yet hard. Tell the buyer.',
    tone: 'text-doubt',
    path: 'M12 4a8 8 0 1 0 8 8M12 8v4l3 2',
  },
]

export default async function BenchPage() {
  await requireLocalRequest()
  const at = now()
  const [bench, workshop] = await Promise.all([readBench(at), readWorkshop()])
  const shown = groups.filter(({ group }) => bench[group].length > 0)
  const helpsFor = bench.wet.length === 0 ? () => [] : await readHelps(at)
  const noJobs =
    shown.length === 0 && (await readJobs(undefined, 1)).jobs.length === 0
  return (
    <>
      <PageHeading
        title="Bench"
        lead={`What is wet and what is ready, ${momentWords(at, at, workshop)}`}
        actions={
          <Link
            prefetch={false}
            href="/jobs/new"
            className="button button-main"
          >
            New job
          </Link>
        }
      />
      <KeepCurrent refresh={refreshBenchAction} />
      {noJobs ? (
        <EmptyState title="An empty bench">
          <p>
            Start a job, add its before photos, and say what you do to each
            surface. What is drying shows up here with the time at which it can
            take the next coat.
          </p>
          <Link
            prefetch={false}
            href="/jobs/new"
            className="button button-main"
          >
            Start the first job
          </Link>
        </EmptyState>
      ) : shown.length === 0 ? (
        <EmptyState title="Nothing is drying">
          <p>
            No surface has a coat that is waiting for the next one. Open a job
            to start a step.
          </p>
          <Link prefetch={false} href="/jobs" className="button">
            Go to the jobs
          </Link>
        </EmptyState>
      ) : (
        <div className="grid items-start gap-6 lg:grid-cols-2">
          {shown.map(({ group, title, lead, tone, path }) => (
            <section key={group} aria-labelledby={`group-${group}`}>
              <h2
                id={`group-${group}`}
                className={`text-lead flex items-center gap-2 font-bold ${tone}`}
              >
                <LineIcon path={path} className="size-7" />
                {title}
              </h2>
              <p className="text-ink-soft mb-3">{lead}</p>
              <Rows
                group={group}
                entries={bench[group]}
                helpsFor={group === 'wet' ? helpsFor : () => []}
                at={at}
                style={workshop}
              />
            </section>
          ))}
        </div>
      )}
    </>
  )
}

/** Surfaces that one step coated together, and that are due together. */
type Row = {
  readonly entry: BenchEntry
  readonly surfaces: readonly { readonly id: string; readonly name: string }[]
}

/** The first rows, and how many surfaces are left after them; what is not drawn is not gone through. */
function together(entries: readonly BenchEntry[]): {
  readonly rows: readonly Row[]
  readonly left: number
} {
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
    ].join(' ')
    const row = rows.get(key)
    if (row !== undefined) row.surfaces.push(entry.surface)
    else if (rows.size === rowsShown) {
      return { rows: [...rows.values()], left: entries.length - index }
    } else rows.set(key, { entry, surfaces: [entry.surface] })
  }
  return { rows: [...rows.values()], left: 0 }
}

function Rows({
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
  const { rows, left } = together(entries)
  return (
    <>
      <ul className="flex flex-col gap-3">
        {rows.map(({ entry, surfaces }) => (
          <li
            key={`${entry.step.id} ${entry.surface.id}`}
            className="card overflow-hidden"
          >
            <Link
              prefetch={false}
              href={`/jobs/${entry.job.id}/timeline`}
              className="hover:bg-well block p-4"
            >
              <span className="text-lead block font-bold">
                {dueWords(group, entry, at, style)}
              </span>
              <span className="block font-semibold">
                {entry.piece.name}:{' '}
                {listOf(surfaces.map((surface) => surface.name))}
              </span>
              <span className="text-ink-soft block">
                {stepName(entry.step.kind, entry.step.coat)}
                {entry.product === undefined ? '' : ` · ${entry.product.name}`}
              </span>
              <span className="text-ink-soft text-small block">
                {entry.job.title}
              </span>
            </Link>
            {entry.doubt !== undefined && (
              <p className="border-line text-doubt border-t px-4 py-3">
                {entry.doubt}{' '}
                <Link
                  prefetch={false}
                  href="/workshop#cameras"
                  className="link"
                >
                  Set its clock
                </Link>
              </p>
            )}
            <Next group={group} entry={entry} surfaces={surfaces} />
            <Helps helps={helpsFor(entry)} />
          </li>
        ))}
      </ul>
      {left > 0 && (
        <p className="mt-3">
          <Link prefetch={false} href="/jobs" className="link">
            And {left} more {left === 1 ? 'surface' : 'surfaces'}, in the jobs
          </Link>
        </p>
      )}
    </>
  )
}

/** The step that comes next, a tap away. */
function Next({ group, entry, surfaces }: Row & { readonly group: Group }) {
  if (group !== 'ready' && group !== 'closing' && group !== 'past') return null
  const ids = surfaces.map((surface) => surface.id)
  return (
    <p className="border-line border-t p-3">
      <Link
        prefetch={false}
        href={
          group === 'past'
            ? nextStepPath(entry.job.id, entry.step.id, ids, 'scuff')
            : nextStepPath(entry.job.id, entry.step.id, ids)
        }
        className="button"
        aria-label={`${group === 'past' ? 'Scuff' : 'Next coat'}: ${entry.piece.name}, ${listOf(surfaces.map((surface) => surface.name))}`}
      >
        {group === 'past' ? 'Scuff' : 'Next coat'}
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
        : `Ready ${spanWords(entry.readyAt.earliest, entry.readyAt.latest, at, style)}, in ${lengthOfTime(minutesBetween(at, entry.readyAt.latest), 'up')}`
    case 'closing':
      return entry.recoatBy === undefined
        ? 'Recoat soon'
        : `Recoat by ${momentWords(entry.recoatBy, at, style)}, in ${lengthOfTime(minutesBetween(at, entry.recoatBy), 'down')}`
    case 'ready':
      return entry.recoatBy === undefined
        ? `Ready since ${momentWords(entry.readyAt?.latest ?? entry.coatedAt, at, style)}`
        : `Ready, recoat by ${momentWords(entry.recoatBy, at, style)}`
    case 'past':
      return entry.recoatBy === undefined
        ? 'The window has passed'
        : `Window passed ${momentWords(entry.recoatBy, at, style)}`
    case 'curing':
      return entry.curedBy === undefined
        ? 'Still curing'
        : `Cured by ${momentWords(entry.curedBy, at, style)}`
    case 'unknown':
      return waitWords[entry.waitsFor ?? 'label']
  }
}
