import type { Metadata } from 'next'
import Link from 'next/link'
import { stepKinds } from '#core/journal/vocabulary'
import { now } from '#services/clock'
import { readProducts } from '#services/shelf/products'
import { readSnapJobs } from '#services/snap/read-snap'
import { readOpenViews } from '#services/snap/read-views'
import { readWorkshop } from '#services/workshop/workshop'
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
  const [choices, jobs, products, views, { units }] = await Promise.all([
    snapChoices(now()),
    readSnapJobs(),
    readProducts(),
    readOpenViews(),
    readWorkshop(),
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
        usualUnit={units === 'metric' ? 'ml' : 'us-fl-oz'}
        form={{
          jobs: jobs.map(({ id, title, pieces }) => ({ id, title, pieces })),
          kinds: stepKinds.map((kind) => ({ kind, name: kindName(kind) })),
          products: products.map(({ id, name }) => ({ id, name })),
        }}
      />
      {views.length > 0 && (
        <section aria-labelledby="views-title" className="mt-8">
          <h2 id="views-title" className="text-lead mb-1 font-bold">
            Take a view again
          </h2>
          <p className="text-ink-soft mb-3 max-w-prose">
            When a piece is finished: the after photo from where the before was
            taken.
          </p>
          <ul className="grid max-w-2xl grid-cols-[repeat(auto-fill,minmax(min(100%,9rem),1fr))] gap-3 sm:grid-cols-3">
            {views.map((view) => (
              <li key={view.id} className="card overflow-hidden">
                <Link prefetch={false} href={`/snap/again/${view.id}`}>
                  <img
                    src={`/api/photos/${view.id}/thumb`}
                    alt=""
                    width={view.width}
                    height={view.height}
                    loading="lazy"
                    className="bg-well aspect-[4/3] w-full object-cover"
                  />
                  <span className="block min-h-12 p-2">
                    <span className="block font-bold wrap-anywhere">
                      {view.view ?? 'View without a name'}
                    </span>
                    <span className="text-ink-soft text-small block">
                      {view.jobTitle}
                    </span>
                  </span>
                </Link>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}
