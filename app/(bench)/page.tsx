import Link from 'next/link'
import { readyBatches } from '#core/bench/ready-batches'
import type { AirReading } from '#core/air/reading'
import { temperatureWords } from '#core/measures/temperature'
import { type MomentStyle, momentWords } from '#core/time/moments'
import type { Instant } from '#core/units'
import { readLatestAir } from '#services/air/air'
import { readAhead } from '#services/bench/bench'
import { readHelps } from '#services/bench/read-helps'
import { now } from '#services/clock'
import { readJobs } from '#services/jobs/jobs'
import { readWorkshop } from '#services/workshop/workshop'
import { AirForm } from '../_air/air-form'
import { EmptyState } from '../_components/empty-state'
import { PageHeading } from '../_components/page-heading'
import { LineIcon } from '../_components/line-icon'
import { requireLocalRequest } from '../_session'
import { DoneJobs } from './_components/done-jobs'
import { BenchNotices } from './_components/bench-notices.client'
import { BenchRows, type Group } from './_components/bench-rows'
import { KeepCurrent } from './_components/keep-current.client'
import { ReadyBatches } from './_components/ready-batches'
import { noticesOf } from './_notices-of'
import { finishJobAction, refreshBenchAction } from './actions'

type Face = {
  readonly title: string
  readonly lead: string
  readonly tone: string
  readonly path: string
}

const readyFace: Face = {
  title: 'Ready now',
  lead: 'May be coated now. What takes the same product stands together; what closes first comes first.',
  tone: 'text-sound',
  path: 'M4 4v16M20 4v16M8 12.500l3 3.200L16.500 9',
}

const groups: readonly ({
  readonly group: Exclude<Group, 'ready' | 'closing'>
} & Face)[] = [
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
  const [{ bench, moments }, workshop, [air]] = await Promise.all([
    readAhead(at),
    readWorkshop(),
    readLatestAir(1),
  ])
  const batches = readyBatches(bench)
  const shown = groups.filter(({ group }) => bench[group].length > 0)
  const isEmpty =
    batches.length === 0 && shown.length === 0 && bench.done.length === 0
  const helpsFor = bench.wet.length === 0 ? () => [] : await readHelps(at)
  const noJobs = isEmpty && (await readJobs(undefined, 1)).jobs.length === 0
  const next = moments.find((moment) => moment.at > at)
  return (
    <>
      <PageHeading
        title="Bench"
        lead={`What is wet and what is ready, ${momentWords(at, at, workshop)}`}
        actions={
          noJobs ? undefined : (
            <Link
              prefetch={false}
              href="/jobs/new"
              className="button button-main"
            >
              New job
            </Link>
          )
        }
      />
      <KeepCurrent
        refresh={refreshBenchAction}
        changesInMilliseconds={next === undefined ? undefined : next.at - at}
      />
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
      ) : isEmpty ? (
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
        <>
          <AirNow air={air} at={at} style={workshop} />
          <DoneJobs entries={bench.done} finish={finishJobAction} />
          <div className="grid items-start gap-6 lg:grid-cols-2">
            {batches.length > 0 && (
              <Section id="ready" face={readyFace}>
                <ReadyBatches batches={batches} at={at} style={workshop} />
              </Section>
            )}
            {shown.map(({ group, ...face }) => (
              <Section key={group} id={group} face={face}>
                <BenchRows
                  group={group}
                  entries={bench[group]}
                  helpsFor={group === 'wet' ? helpsFor : () => []}
                  at={at}
                  style={workshop}
                />
              </Section>
            ))}
          </div>
          <div className="mt-8 grid grid-cols-[minmax(0,1fr)] items-start gap-6 lg:grid-cols-2 print:hidden">
            <BenchNotices notices={noticesOf(moments, at, workshop)} />
            <section
              aria-labelledby="calendar"
              className="card flex flex-col items-start gap-3 p-4"
            >
              <h2 id="calendar" className="text-lead font-bold">
                In your calendar
              </h2>
              <p className="text-ink-soft max-w-prose">
                What gets ready, closes and cures, as a calendar to subscribe
                to. It follows when times change.
              </p>
              <a href="/api/bench.ics" className="button">
                Calendar of the bench
              </a>
            </section>
          </div>
        </>
      )}
    </>
  )
}

function Section({
  id,
  face: { title, lead, tone, path },
  children,
}: {
  readonly id: string
  readonly face: Face
  readonly children: React.ReactNode
}) {
  return (
    <section aria-labelledby={`group-${id}`}>
      <h2
        id={`group-${id}`}
        className={`text-lead flex items-center gap-2 font-bold ${tone}`}
      >
        <LineIcon path={path} className="size-7" />
        {title}
      </h2>
      <p className="text-ink-soft mb-3">{lead}</p>
      {children}
    </section>
  )
}

/** The air as it was read last, and the form for the next reading a tap away. */
function AirNow({
  air,
  at,
  style,
}: {
  readonly air: AirReading | undefined
  readonly at: Instant
  readonly style: MomentStyle
}) {
  return (
    <details className="card mb-6 print:hidden">
      <summary className="flex min-h-14 cursor-pointer flex-wrap items-center gap-x-3 px-4 py-2">
        <span className="flex min-w-0 grow basis-44 flex-wrap gap-x-3">
          <span className="font-bold">
            {air === undefined
              ? 'No reading of the air yet'
              : `${temperatureWords(air.celsius, style.units, style.units === 'us' ? 0 : 1)} and ${Math.round(air.humidity)} %`}
          </span>
          {air !== undefined && (
            <span className="text-ink-soft">
              {momentWords(air.at, at, style)}
            </span>
          )}
        </span>
        <span className="link shrink-0">Log the air</span>
      </summary>
      <div className="border-line border-t p-4">
        <AirForm units={style.units} last={air} />
      </div>
    </details>
  )
}
