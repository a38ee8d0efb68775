import type { Metadata } from 'next'
import Link from 'next/link'
import { dayWords } from '#core/time/moments'
import { now } from '#services/clock'
import { readJobs } from '#services/jobs/jobs'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../_components/empty-state'
import { PageHeading } from '../_components/page-heading'
import { photoSources } from '../_components/photo-sources'
import { listOf } from '../_words'
import { requireLocalRequest } from '../_session'

export const metadata: Metadata = { title: 'Jobs' }

const jobsOnAPage = 40
/** So many covers are seen before anybody scrolls. */
const coversAtOnce = 3

export default async function JobsPage({ searchParams }: PageProps<'/jobs'>) {
  await requireLocalRequest()
  const { after } = await searchParams
  const [{ jobs, next }, workshop] = await Promise.all([
    readJobs(typeof after === 'string' ? after : undefined, jobsOnAPage),
    readWorkshop(),
  ])
  const present = now()
  return (
    <>
      <PageHeading
        title="Jobs"
        actions={
          jobs.length === 0 ? undefined : (
            <>
              <a href="/portfolio" target="_blank" className="button">
                Portfolio
              </a>
              <Link prefetch={false} href="/jobs/money" className="button">
                What pays
              </Link>
              <Link
                prefetch={false}
                href="/jobs/new"
                className="button button-main"
              >
                New job
              </Link>
            </>
          )
        }
      />
      {jobs.length === 0 ? (
        <EmptyState title="No jobs yet">
          <p>
            A job is one project, from finding the furniture to its sale. Start
            it before you clean anything: the before photo cannot be taken
            again.
          </p>
          <Link
            prefetch={false}
            href="/jobs/new"
            className="button button-main"
          >
            Start the first job
          </Link>
        </EmptyState>
      ) : (
        <ul className="grid gap-4 sm:grid-cols-2 lg:grid-cols-3">
          {jobs.map((job, i) => (
            <li key={job.id}>
              <Link
                prefetch={false}
                href={`/jobs/${job.id}/timeline`}
                className="card hover:border-line-strong flex h-full flex-col overflow-hidden"
              >
                {job.coverPhotoId === null ? (
                  <span className="bg-well text-ink-soft flex aspect-[4/3] items-center justify-center">
                    No photos yet
                  </span>
                ) : (
                  <img
                    {...photoSources({ id: job.coverPhotoId })}
                    sizes="(min-width: 64rem) 24rem, (min-width: 40rem) 50vw, calc(100vw - 2rem)"
                    alt=""
                    {...(i < coversAtOnce
                      ? { fetchPriority: 'high' }
                      : { loading: 'lazy' })}
                    className="bg-well aspect-[4/3] w-full object-cover"
                  />
                )}
                <span className="flex grow flex-col gap-1 p-4">
                  <span className="text-lead font-bold break-words">
                    {job.title}
                  </span>
                  <span className="text-ink-soft">
                    {listOf(job.pieces.map((piece) => piece.name))}
                  </span>
                  <span className="text-ink-soft text-small mt-auto pt-2">
                    {job.finishedAt === null
                      ? 'In progress'
                      : `Finished ${dayWords(job.finishedAt, present, workshop)}`}
                    {' · '}
                    {job.photoCount} {job.photoCount === 1 ? 'photo' : 'photos'}
                    {' · '}
                    {job.stepCount} {job.stepCount === 1 ? 'step' : 'steps'}
                  </span>
                </span>
              </Link>
            </li>
          ))}
        </ul>
      )}
      {next !== undefined && (
        <p className="mt-6">
          <Link
            prefetch={false}
            href={`/jobs?after=${next}`}
            className="button"
          >
            Older jobs
          </Link>
        </p>
      )}
    </>
  )
}
