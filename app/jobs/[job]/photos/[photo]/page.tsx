import Link from 'next/link'
import { notFound } from 'next/navigation'
import {
  alternativeOfPhoto,
  ownWordsOfPhotos,
} from '#core/write-ups/write-photo-words'
import { readClockChoices } from '#services/cameras/learn-clock'
import { now } from '#services/clock'
import { readJournal } from '#services/journal/read-journal'
import { describeOriginal } from '#services/photos/describe-original'
import { readWorkshop } from '#services/workshop/workshop'
import { readEdits } from '#services/write-ups/read-edits'
import { photoSources } from '../../../../_components/photo-sources'
import { roleName, stepName, surfacesWords } from '../../../../_words'
import { CaptureTimeSection } from './_components/capture-time-section'
import { ClockSection } from './_components/clock-section'
import { FlawSection } from './_components/flaw-section'
import { OriginalSection } from './_components/original-section'
import { ViewSection } from './_components/view-section'
import { turnAction } from './actions'
import { requireLocalRequest } from '../../../../_session'

export default async function PhotoPage({
  params,
}: PageProps<'/jobs/[job]/photos/[photo]'>) {
  await requireLocalRequest()
  const { job, photo: id } = await params
  const [journal, workshop, choices, description, edits] = await Promise.all([
    readJournal(job),
    readWorkshop(),
    readClockChoices(id),
    describeOriginal(id),
    readEdits(job),
  ])
  const index = journal?.photos.findIndex((one) => one.id === id) ?? -1
  const photo = journal?.photos[index]
  if (journal === undefined || photo === undefined) notFound()
  const before = journal.photos[index - 1]
  const after = journal.photos[index + 1]
  const step = journal.steps.find((one) => one.id === photo.stepId)
  const camera = journal.cameras.find((one) => one.id === photo.cameraId)
  const surfaces = surfacesWords(journal.pieces, photo.surfaceIds)
  const shows =
    step === undefined
      ? `${roleName(photo.role)}${photo.view === undefined ? '' : `, ${photo.view}`}`
      : stepName(step.kind, step.surfaces[0]?.coat)
  const present = now()
  return (
    <div className="grid items-start gap-6 lg:grid-cols-[2fr_1fr]">
      {/* It stays in sight while what it shows is read off it: a clock, a flaw. */}
      <div className="lg:sticky lg:top-6">
        <a href={`/api/photos/${id}/zoom`}>
          <img
            {...photoSources(photo)}
            sizes="(min-width: 64rem) 44rem, calc(100vw - 2rem)"
            fetchPriority="high"
            alt={alternativeOfPhoto(journal, photo, ownWordsOfPhotos(edits))}
            width={photo.width}
            height={photo.height}
            className="card bg-well h-auto max-h-[75dvh] w-full object-contain"
          />
        </a>
        <nav
          aria-label="Photos"
          className="mt-3 flex flex-wrap gap-3 empty:hidden"
        >
          {before !== undefined && (
            <Link
              prefetch={false}
              href={`/jobs/${job}/photos/${before.id}`}
              className="button"
            >
              The one before
            </Link>
          )}
          {after !== undefined && (
            <Link
              prefetch={false}
              href={`/jobs/${job}/photos/${after.id}`}
              className="button"
            >
              The next one
            </Link>
          )}
        </nav>
        <div className="mt-3 flex flex-wrap gap-3">
          <form action={turnAction.bind(null, job, id, -1)}>
            <button className="button">Turn left</button>
          </form>
          <form action={turnAction.bind(null, job, id, 1)}>
            <button className="button">Turn right</button>
          </form>
        </div>
      </div>
      <div className="flex flex-col gap-8">
        <section aria-labelledby="shows">
          <h2 id="shows" className="text-lead font-bold">
            {shows}
          </h2>
          {surfaces !== '' && <p>{surfaces}</p>}
          <p className="text-ink-soft mt-1 break-words">{photo.fileName}</p>
          {camera !== undefined && (
            <p className="text-ink-soft">{camera.name}</p>
          )}
          {photo.warnings.map((warning) => (
            <p key={warning} className="text-late mt-2 font-semibold">
              {warning}
            </p>
          ))}
        </section>
        <ViewSection job={job} photo={photo} />
        <FlawSection job={job} photo={photo} journal={journal} />
        <CaptureTimeSection
          job={job}
          photo={photo}
          isClockUnchecked={
            photo.basis === 'zone' && camera?.clock === undefined
          }
          style={workshop}
          now={present}
        />
        {choices !== undefined && (
          <ClockSection
            job={job}
            photo={id}
            choices={choices}
            style={workshop}
            now={present}
          />
        )}
        <OriginalSection
          job={job}
          photo={id}
          fileName={photo.fileName}
          description={description}
        />
      </div>
    </div>
  )
}
