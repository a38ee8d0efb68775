import type { Metadata } from 'next'
import Link from 'next/link'
import { stepKinds } from '#core/journal/vocabulary'
import { now } from '#services/clock'
import { readProducts } from '#services/shelf/products'
import { readSnapJobs } from '#services/snap/read-snap'
import { EmptyState } from '../_components/empty-state'
import { PageHeading } from '../_components/page-heading'
import { requireLocalRequest } from '../_session'
import { kindName } from '../_words'
import { SnapScreen } from './_components/snap-screen.client'
import { snapChoices } from './_snap-choices'

export const metadata: Metadata = { title: 'Snap' }

export default async function SnapPage({ searchParams }: PageProps<'/snap'>) {
  await requireLocalRequest()
  const { job } = await searchParams
  const [choices, jobs, products] = await Promise.all([
    snapChoices(now()),
    readSnapJobs(),
    readProducts(),
  ])
  const known = jobs.find((one) => one.id === job)
  return (
    <>
      <PageHeading
        title="Snap"
        lead="A photo stamps the step it is of. Choose the step here, before or between photos."
      />
      {jobs.length === 0 && (
        <EmptyState title="No job is open">
          <p>Start a job; then its photos can be taken from here.</p>
          <Link
            prefetch={false}
            href="/jobs/new"
            className="button button-main"
          >
            Start a job
          </Link>
        </EmptyState>
      )}
      <SnapScreen
        choices={choices}
        job={known?.id}
        form={{
          jobs: jobs.map(({ id, title, pieces }) => ({ id, title, pieces })),
          kinds: stepKinds.map((kind) => ({ kind, name: kindName(kind) })),
          products: products.map(({ id, name }) => ({ id, name })),
        }}
      />
    </>
  )
}
