import Link from 'next/link'
import { notFound } from 'next/navigation'
import { benchEntries } from '#core/bench/bench-entries'
import { judgeFinish } from '#core/finish/judge-finish'
import { now } from '#services/clock'
import { readJobTimeline } from '#services/timeline/timeline'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../../../_components/empty-state'
import { Findings } from './_components/findings'
import { LaneView } from './_components/lane-view'
import { TimelineWarnings } from './_components/timeline-warnings'
import { requireLocalRequest } from '../../../_session'

export default async function TimelinePage({
  params,
}: PageProps<'/jobs/[job]/timeline'>) {
  await requireLocalRequest()
  const { job } = await params
  const [read, workshop] = await Promise.all([
    readJobTimeline(job),
    readWorkshop(),
  ])
  if (read === undefined) notFound()
  const { journal, timeline } = read
  const style = { zone: workshop.zone, units: workshop.units, now: now() }
  const products = new Map(
    journal.products.map((product) => [product.id, product.name]),
  )
  const entries = new Map(
    benchEntries(journal, timeline).map((entry) => [entry.surface.id, entry]),
  )
  const photos = new Map(journal.photos.map((photo) => [photo.id, photo]))
  return (
    <>
      <div className="mb-6 flex flex-wrap gap-3 print:hidden">
        <Link
          prefetch={false}
          href={`/jobs/${job}/steps/new`}
          className="button button-main"
        >
          Start a step
        </Link>
        <Link prefetch={false} href={`/jobs/${job}/photos`} className="button">
          Add photos
        </Link>
      </div>
      {journal.steps.length === 0 && (
        <EmptyState title="Nothing has been done yet">
          <p>
            Add the photos you have and say what they show, or start a step and
            snap into it. Each surface then gets its lane here, with the time
            between coats judged against the label.
          </p>
        </EmptyState>
      )}
      <TimelineWarnings timeline={timeline} journal={journal} />
      <Findings
        job={job}
        findings={judgeFinish(journal, workshop.units)}
        piecesCount={journal.pieces.length}
      />
      {journal.pieces.map((piece) => (
        <section
          key={piece.id}
          aria-labelledby={`piece-${piece.id}`}
          className="mb-10"
        >
          <h2
            id={`piece-${piece.id}`}
            className="text-lead border-line mb-4 border-b-2 pb-1 font-bold"
          >
            {piece.name}
          </h2>
          <div className="grid items-start gap-5 md:grid-cols-2 xl:grid-cols-3">
            {timeline.lanes
              .filter((lane) => lane.piece.id === piece.id)
              .map((lane) => (
                <LaneView
                  key={lane.surface.id}
                  job={job}
                  lane={lane}
                  photos={photos}
                  products={products}
                  air={journal.air}
                  entry={entries.get(lane.surface.id)}
                  style={style}
                />
              ))}
          </div>
        </section>
      ))}
    </>
  )
}
