import Link from 'next/link'
import { notFound } from 'next/navigation'
import { benchEntries } from '#core/bench/bench-entries'
import { judgeFinish } from '#core/finish/judge-finish'
import type { Journal, Photo } from '#core/journal/journal'
import { endsOfWork } from '#core/photos/ends-of-work'
import { momentWords } from '#core/time/moments'
import { planTimelineDrawing } from '#core/timeline/plan-timeline-drawing'
import { surfaceWork } from '#core/write-ups/surface-work'
import { now } from '#services/clock'
import { readLastChange } from '#services/changes/changes'
import { readJobTimeline } from '#services/timeline/timeline'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../../../_components/empty-state'
import { PrintButton } from '../../../_components/print-button.client'
import { Findings } from './_components/findings'
import { LaneView } from './_components/lane-view'
import { LastChangeView } from './_components/last-change'
import { TimelineDrawingView } from './_components/timeline-drawing.client'
import { TimelineWarnings } from './_components/timeline-warnings'
import { requireLocalRequest } from '../../../_session'
import { roleName, stepName, surfacesWords } from '../../../_words'

export default async function TimelinePage({
  params,
}: PageProps<'/jobs/[job]/timeline'>) {
  await requireLocalRequest()
  const { job } = await params
  const [read, workshop, lastChange] = await Promise.all([
    readJobTimeline(job),
    readWorkshop(),
    readLastChange(job, now()),
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
  const works = surfaceWork(journal)
  const drawing = planTimelineDrawing(
    timeline.lanes,
    journal.photos,
    style.now,
    style,
  )
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
      {lastChange !== undefined && (
        <LastChangeView
          job={job}
          change={lastChange}
          journal={journal}
          timeline={timeline}
          style={style}
        />
      )}
      {journal.steps.length === 0 && (
        <div className="mb-8">
          <EmptyState title="Nothing has been done yet">
            <p>
              Add the photos you have and say what they show, or start a step
              and snap into it. Each surface then gets its lane here, with the
              time between coats judged against the label.
            </p>
          </EmptyState>
        </div>
      )}
      {drawing?.lanes.some(
        ({ steps, photos: shown }) => steps.length + shown.length > 0,
      ) === true && (
        <TimelineDrawingView
          job={job}
          drawing={drawing}
          photos={journal.photos.map((photo) => ({
            id: photo.id,
            words: `${photoWords(photo, journal)}, ${momentWords(photo.taken.at, style.now, style)}`,
          }))}
          ends={endsOfWork(journal.photos)}
          lastChange={lastChange?.id}
          units={workshop.units}
        />
      )}
      <div className="print:columns-2 print:gap-8">
        <TimelineWarnings job={job} timeline={timeline} journal={journal} />
        <Findings
          job={job}
          findings={judgeFinish(journal, workshop.units)}
          piecesCount={journal.pieces.length}
          stepWords={(id) => {
            const step = journal.steps.find((one) => one.id === id)
            if (step === undefined) return ''
            const product = products.get(step.productId ?? '')
            const name = stepName(step.kind, step.surfaces[0]?.coat)
            return product === undefined ? name : `${name}: ${product}`
          }}
        />
        {journal.pieces.map((piece) => (
          <section
            key={piece.id}
            aria-labelledby={`piece-${piece.id}`}
            className="mb-10 print:mb-4"
          >
            <h2
              id={`piece-${piece.id}`}
              className="text-lead border-line mb-4 break-after-avoid border-b-2 pb-1 font-bold print:mb-2"
            >
              {piece.name}
            </h2>
            <div className="grid items-start gap-5 md:grid-cols-2 xl:grid-cols-3 print:block">
              {timeline.lanes
                .filter((lane) => lane.piece.id === piece.id)
                .map((lane) => (
                  <LaneView
                    key={lane.surface.id}
                    job={job}
                    lane={lane}
                    work={works.find(
                      ({ surface }) => surface.id === lane.surface.id,
                    )}
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
      </div>
      {journal.steps.length > 0 && (
        <PrintButton>Print the timeline</PrintButton>
      )}
    </>
  )
}

function photoWords(photo: Photo, { pieces, steps }: Journal): string {
  const step = steps.find((one) => one.id === photo.stepId)
  const what =
    step === undefined
      ? roleName(photo.role)
      : stepName(step.kind, step.surfaces[0]?.coat)
  const where = surfacesWords(pieces, photo.surfaceIds)
  return where === '' ? what : `${what}: ${where}`
}
