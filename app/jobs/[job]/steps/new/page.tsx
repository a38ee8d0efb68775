import { notFound } from 'next/navigation'
import { readJournal } from '#services/journal/read-journal'
import { readProducts } from '#services/shelf/products'
import { readWorkshop } from '#services/workshop/workshop'
import { StepFields } from '../../_components/step-fields.client'
import { nextStepValues } from '../../_next-step'
import { stepChoices } from '../../_step-choices'
import { NewStepForm } from './_components/new-step-form.client'
import { judgeDraftAction, startStepAction } from '../actions'
import { requireLocalRequest } from '../../../../_session'

export default async function NewStepPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/steps/new'>) {
  await requireLocalRequest()
  const { job } = await params
  const [journal, products, workshop, asked] = await Promise.all([
    readJournal(job),
    readProducts(),
    readWorkshop(),
    searchParams,
  ])
  if (journal === undefined) notFound()
  const choices = stepChoices(journal, products)
  const values = nextStepValues(asked, journal, choices, workshop.zone)
  return (
    <section aria-labelledby="new-step" className="max-w-2xl">
      <h2 id="new-step" className="text-lead mb-4 font-bold">
        Start a step
      </h2>
      <NewStepForm
        start={startStepAction.bind(null, job)}
        isPast={values.startedAt !== ''}
      >
        <StepFields
          choices={choices}
          values={values}
          judgeDraft={judgeDraftAction.bind(null, job, null)}
        />
      </NewStepForm>
    </section>
  )
}
