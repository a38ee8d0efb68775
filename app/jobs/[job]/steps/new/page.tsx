import { notFound } from 'next/navigation'
import { readJournal } from '#services/journal/read-journal'
import { readProducts } from '#services/shelf/products'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { StepFields } from '../../_components/step-fields.client'
import { noValues } from '../../_no-values'
import { stepChoices } from '../../_step-choices'
import { judgeDraftAction, startStepAction } from '../actions'
import { requireLocalRequest } from '../../../../_session'

export default async function NewStepPage({
  params,
}: PageProps<'/jobs/[job]/steps/new'>) {
  await requireLocalRequest()
  const { job } = await params
  const [journal, products] = await Promise.all([
    readJournal(job),
    readProducts(),
  ])
  if (journal === undefined) notFound()
  return (
    <section aria-labelledby="new-step" className="max-w-2xl">
      <h2 id="new-step" className="text-lead mb-4 font-bold">
        Start a step
      </h2>
      <ActionForm action={startStepAction.bind(null, job)}>
        <StepFields
          choices={stepChoices(journal, products)}
          values={noValues}
          judgeDraft={judgeDraftAction.bind(null, job, null)}
        />
        <div className="mt-5">
          <SubmitButton>Go on to its photos</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
