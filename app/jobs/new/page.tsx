import type { Metadata } from 'next'
import { surfaceNames } from '#core/journal/vocabulary'
import { PageHeading } from '../../_components/page-heading'
import { JobForm } from './_components/job-form.client'
import { addJobAction } from './actions'

export const metadata: Metadata = { title: 'New job' }

export default function NewJobPage() {
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
