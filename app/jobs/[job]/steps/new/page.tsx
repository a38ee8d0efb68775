import { notFound } from 'next/navigation'
import { readJournal } from '#services/journal/read-journal'
import { readProducts } from '#services/shelf/products'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { StepFields } from '../../_components/step-fields.client'
import { nextStepValues } from '../../_next-step'
import { stepChoices } from '../../_step-choices'
import { judgeDraftAction, startStepAction } from '../actions'
import { requireLocalRequest } from '../../../../_session'

export default async function NewStepPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/steps/new'>) {
  await requireLocalRequest()
  const { job } = await params
  const [journal, products, asked] = await Promise.all([
    readJournal(job),
    readProducts(),
    searchParams,
  ])
  if (journal === undefined) notFound()
  const choices = stepChoices(journal, products)
  return (
    <section aria-labelledby="new-step" className="max-w-2xl">
      <h2 id="new-step" className="text-lead mb-4 font-bold">
        Start a step
      </h2>
      <ActionForm action={startStepAction.bind(null, job)}>
        <StepFields
          choices={choices}
          values={nextStepValues(asked, journal, choices)}
          judgeDraft={judgeDraftAction.bind(null, job, null)}
        />
        <label className="choice mt-5 w-full">
          <input type="checkbox" name="startsNow" defaultChecked />
          <span>
            It starts now
            <span className="text-ink-soft text-small block font-normal">
              Leave this out for work done earlier: its photos or typed times
              then tell when.
            </span>
          </span>
        </label>
        <div className="mt-5">
          <SubmitButton>Go on to its photos</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
