import Link from 'next/link'
import { notFound } from 'next/navigation'
import { isStepOver } from '#core/snap/snap-target'
import { momentWords } from '#core/time/moments'
import { stepTimesIn } from '#core/timeline/step-times'
import { now } from '#services/clock'
import { readJournal } from '#services/journal/read-journal'
import { readProducts } from '#services/shelf/products'
import { readWorkshop } from '#services/workshop/workshop'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { nextStepPath } from '../../../../_next-step-path'
import { stepName, surfacesWords } from '../../../../_words'
import { PhotoUploader } from '../../_components/photo-uploader.client'
import { StepFields } from '../../_components/step-fields.client'
import { offeredValues } from '../../_offered-values'
import { stepChoices } from '../../_step-choices'
import { noPhotosWords, stepOverWords } from '../../_step-photo-words'
import { stepValues } from '../../_step-values'
import { stepWhen } from '../../_step-when'
import {
  changeStepAction,
  judgeDraftAction,
  removeStepAction,
} from '../actions'
import { requireLocalRequest } from '../../../../_session'

export default async function StepPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/steps/[step]'>) {
  await requireLocalRequest()
  const { job, step: id } = await params
  const [journal, products, workshop] = await Promise.all([
    readJournal(job),
    readProducts(),
    readWorkshop(),
  ])
  const step = journal?.steps.find((one) => one.id === id)
  if (journal === undefined || step === undefined) notFound()
  const present = now()
  const { values, said } = offeredValues(
    stepValues(journal, step, workshop.zone),
    await searchParams,
  )
  const when = stepWhen(journal, step, present, workshop)
  const photos = journal.photos.filter((photo) => photo.stepId === id)
  const surfaceIds = step.surfaces.map((on) => on.surfaceId)
  const names = surfacesWords(journal.pieces, surfaceIds)
  const ended = stepTimesIn(journal, step)?.time.finished.latest
  return (
    <div className="max-w-2xl">
      <h2 className="text-lead font-bold">
        {stepName(step.kind, step.surfaces[0]?.coat)}: {names}
      </h2>
      {when !== undefined && <p className="text-ink-soft">{when}</p>}
      <section aria-label="Photos of this step" className="mt-4 mb-8">
        {ended !== undefined && isStepOver(ended, present) && (
          <div className="border-late bg-late-soft rounded-card mb-4 border-2 p-4">
            <p>
              {stepOverWords(
                step,
                photos.length > 0,
                momentWords(ended, present, workshop),
              )}
            </p>
            <Link
              prefetch={false}
              href={nextStepPath(job, id, surfaceIds)}
              className="button mt-3"
            >
              Begin a new step like it
            </Link>
          </div>
        )}
        <PhotoUploader job={job} fields={{ step: id }} />
        {photos.length === 0 ? (
          <p className="text-ink-soft mt-4">{noPhotosWords(step)}</p>
        ) : (
          <ul className="mt-4 grid grid-cols-2 gap-3 sm:grid-cols-3">
            {photos.map((photo) => (
              <li key={photo.id} className="card overflow-hidden">
                <a href={`/jobs/${job}/photos/${photo.id}`}>
                  <img
                    src={`/api/photos/${photo.id}/thumb`}
                    alt={`${stepName(step.kind, step.surfaces[0]?.coat)} of ${names}`}
                    width={320}
                    height={240}
                    loading="lazy"
                    className="bg-well aspect-[4/3] w-full object-cover"
                  />
                </a>
                <p className="p-2">
                  {momentWords(photo.taken.at, present, workshop)}
                </p>
              </li>
            ))}
          </ul>
        )}
      </section>
      <section aria-labelledby="what-was-done">
        <h2 id="what-was-done" className="text-lead mb-4 font-bold">
          What the step says
        </h2>
        {said !== undefined && (
          <p className="border-doubt bg-doubt-soft rounded-card mb-4 border-2 p-4">
            What you said at {said} of the video is filled in below. Look at it,
            then save the step: nothing is written down before.
          </p>
        )}
        <ActionForm
          action={changeStepAction.bind(null, job, id)}
          label="What the step says"
        >
          <StepFields
            choices={stepChoices(journal, products, step)}
            values={values}
            judgeDraft={judgeDraftAction.bind(null, job, id)}
          />
          <div className="mt-5">
            <SubmitButton>Save the step</SubmitButton>
          </div>
        </ActionForm>
      </section>
      <details className="mt-10">
        <summary className="link flex min-h-12 cursor-pointer items-center">
          Remove this step
        </summary>
        <form
          action={removeStepAction.bind(null, job, id)}
          className="mt-2 flex flex-col items-start gap-3"
        >
          <p>
            The step goes; its photos stay with the job and can be placed again.
            The timeline offers to undo it.
          </p>
          <button className="button">Remove the step</button>
        </form>
      </details>
    </div>
  )
}
