import type { Metadata } from 'next'
import { surfaceNames } from '#core/journal/vocabulary'
import { PageHeading } from '../../_components/page-heading'
import { JobForm } from './_components/job-form.client'
import { addJobAction } from './actions'
import { requireLocalRequest } from '../../_session'

export const metadata: Metadata = { title: 'New job' }

export default async function NewJobPage() {
  await requireLocalRequest()
  return (
    <>
      <PageHeading
        title="New job"
        lead="Name what you have. Sizes, wood and price can wait."
      />
      <JobForm action={addJobAction} surfaceNames={surfaceNames} />
    </>
  )
}
