import Link from 'next/link'
import { notFound } from 'next/navigation'
import { dayInFull, momentWords, timeOfDay } from '#core/time/moments'
import { startOfDay } from '#core/time/zone'
import { countBinned } from '#services/bin/bin'
import { now } from '#services/clock'
import { readJournal } from '#services/journal/read-journal'
import { renditionsWaiting } from '#services/renditions/renditions'
import { readPlacing } from '#services/placing/read-placing'
import { readLastPlacing } from '#services/placing/undo-placing'
import { readProducts } from '#services/shelf/products'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../../../_components/empty-state'
import { roleName, stepName, surfacesWords } from '../../../_words'
import { stepChoices } from '../_step-choices'
import { PhotoUploader } from '../_components/photo-uploader.client'
import { PhotoBoard, type BoardPhoto } from './_components/photo-board.client'
import { judgeDraftAction } from '../steps/actions'
import { LastPlacingNote } from './_components/last-placing'
import { PicturesWaiting } from './_components/pictures-waiting.client'
import { PlacingRuns } from './_components/placing-runs'
import {
  addStepAction,
  confirmPlacingAction,
  placePhotosAction,
  undoPlacingAction,
} from './actions'
import { requireLocalRequest } from '../../../_session'

export default async function PhotosPage({
  params,
}: PageProps<'/jobs/[job]/photos'>) {
  await requireLocalRequest()
  const { job } = await params
  const [journal, products, workshop, binned] = await Promise.all([
    readJournal(job),
    readProducts(),
    readWorkshop(),
    countBinned(job),
  ])
  if (journal === undefined) notFound()
  const present = now()
  const waiting = renditionsWaiting()
  const [bursts, last] = await Promise.all([
    readPlacing(journal),
    readLastPlacing(job, present),
  ])
  const steps = new Map(journal.steps.map((step) => [step.id, step]))
  const photos = journal.photos.map((photo): BoardPhoto => {
    const step =
      photo.stepId === undefined ? undefined : steps.get(photo.stepId)
    const on = step?.surfaces.find((one) =>
      photo.surfaceIds.includes(one.surfaceId),
    )
    const shows =
      step === undefined
        ? `${roleName(photo.role)}${photo.view === undefined ? '' : `, ${photo.view}`}`
        : stepName(step.kind, on?.coat)
    const surfaces = surfacesWords(journal.pieces, photo.surfaceIds)
    return {
      id: photo.id,
      day: dayInFull(startOfDay(photo.taken.at, workshop.zone), workshop),
      time: timeOfDay(photo.taken.at, workshop),
      sure: sureness(photo.basis),
      role: photo.role,
      placed: step !== undefined || photo.role !== 'progress',
      shows,
      surfaces,
      alt: `${shows}${surfaces === '' ? '' : ` of ${surfaces}`}, ${momentWords(photo.taken.at, present, workshop)}`,
      warnings: photo.warnings,
    }
  })
  return (
    <>
      <section aria-label="Add photos" className="mb-6">
        <PhotoUploader job={job} fields={{}} />
        {waiting > 0 && <PicturesWaiting waiting={waiting} />}
      </section>
      {last !== undefined && (
        <LastPlacingNote
          last={last}
          time={timeOfDay(last.placedAt, workshop)}
          undo={undoPlacingAction.bind(null, job, last.id)}
        />
      )}
      <PlacingRuns
        bursts={bursts}
        journal={journal}
        products={products}
        workshop={workshop}
        confirm={confirmPlacingAction.bind(null, job)}
      />
      {photos.length === 0 ? (
        <EmptyState title="No photos yet">
          <p>
            Begin with the before photos: the front, both three-quarter views,
            the top, the hardware, and every flaw. They cannot be taken again
            later.
          </p>
        </EmptyState>
      ) : (
        <PhotoBoard
          photos={photos}
          steps={[...journal.steps].reverse().map((step) => ({
            id: step.id,
            name: `${stepName(step.kind, step.surfaces[0]?.coat)}: ${surfacesWords(
              journal.pieces,
              step.surfaces.map((on) => on.surfaceId),
            )}`,
          }))}
          choices={stepChoices(journal, products)}
          judgeDraft={judgeDraftAction.bind(null, job, null)}
          addStep={addStepAction.bind(null, job)}
          placePhotos={placePhotosAction.bind(null, job)}
        />
      )}
      {binned > 0 && (
        <p className="mt-6">
          <Link prefetch={false} href="/workshop/bin" className="button">
            {binned} {binned === 1 ? 'photo' : 'photos'} in the bin
          </Link>
        </p>
      )}
    </>
  )
}

function sureness(basis: string): string {
  switch (basis) {
    case 'zone':
      return 'no time zone in the photo'
    case 'file':
      return 'from the file, not the camera'
    case 'arrival':
      return 'when it arrived'
    case 'typed':
      return 'typed'
    default:
      return ''
  }
}
