import Link from 'next/link'
import { notFound } from 'next/navigation'
import type { TimeBasis } from '#core/journal/vocabulary'
import { lengthOfTime } from '#core/time/length-of-time'
import { dayInFull, timeOfDay } from '#core/time/moments'
import { minutesBetween } from '#core/units'
import { readJournal } from '#services/journal/read-journal'
import { readWorkshop } from '#services/workshop/workshop'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { TextField } from '../../../../_components/field.client'
import { localText } from '../../../../_local-text'
import { roleName, stepName, surfacesWords } from '../../../../_words'
import { forgetTimeAction, turnAction, typeTimeAction } from './actions'
import { requireLocalRequest } from '../../../../_session'

export default async function PhotoPage({
  params,
}: PageProps<'/jobs/[job]/photos/[photo]'>) {
  await requireLocalRequest()
  const { job, photo: id } = await params
  const [journal, workshop] = await Promise.all([
    readJournal(job),
    readWorkshop(),
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
  const { earliest, at, latest } = photo.taken
  const spread = minutesBetween(earliest, latest)
  return (
    <div className="grid items-start gap-6 lg:grid-cols-[2fr_1fr]">
      <div>
        <a href={`/api/photos/${id}/zoom`}>
          <img
            src={`/api/photos/${id}/screen`}
            alt={`${shows}${surfaces === '' ? '' : ` of ${surfaces}`}`}
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
          <a
            href={`/api/photos/${id}/original`}
            download={photo.fileName}
            className="button"
          >
            Save the original
          </a>
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
        <section aria-labelledby="taken">
          <h2 id="taken" className="text-lead font-bold">
            Taken {dayInFull(at, workshop)}, {timeOfDay(at, workshop)}
          </h2>
          <p>{basisWords[photo.basis]}</p>
          {spread >= 1 && (
            <p>
              It may have been up to {lengthOfTime(spread, 'up')} apart:{' '}
              {timeOfDay(earliest, workshop)} to {timeOfDay(latest, workshop)}.
            </p>
          )}
          <ActionForm
            action={typeTimeAction.bind(null, job, id)}
            label="Type the time"
            className="mt-4 flex flex-col gap-3"
          >
            <TextField
              name="time"
              label="You know better? Type the time"
              type="datetime-local"
              step={1}
              defaultValue={localText(at, workshop.zone, true)}
            />
            <div>
              <SubmitButton quiet>Use this time</SubmitButton>
            </div>
          </ActionForm>
          {photo.basis === 'typed' && (
            <form action={forgetTimeAction.bind(null, job, id)}>
              <button className="button button-quiet">
                Go by the photo’s own time again
              </button>
            </form>
          )}
        </section>
      </div>
    </div>
  )
}

const basisWords: Record<TimeBasis, string> = {
  typed: 'You typed it.',
  offset: 'The camera wrote it with its offset.',
  gps: 'From satellite time in the photo.',
  zone: 'The camera wrote no offset, so it was read in the workshop’s time zone.',
  file: 'From the file’s own date: the photo says none.',
  arrival: 'When it arrived here: neither photo nor file says more.',
}
