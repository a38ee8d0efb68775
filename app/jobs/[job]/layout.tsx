import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { readJob } from '#services/jobs/jobs'
import { listOf } from '../../_words'
import { JobNavigation } from './_components/job-navigation.client'
import { requireLocalRequest } from '../../_session'

export async function generateMetadata({
  params,
}: LayoutProps<'/jobs/[job]'>): Promise<Metadata> {
  await requireLocalRequest()
  const job = await readJob((await params).job)
  return { title: job?.title ?? 'Job' }
}

export default async function JobLayout({
  children,
  params,
}: LayoutProps<'/jobs/[job]'>) {
  await requireLocalRequest()
  const { job: id } = await params
  const job = await readJob(id)
  if (job === undefined) notFound()
  return (
    <>
      <div className="mb-4 print:mb-2">
        <h1 className="text-title font-bold tracking-tight break-words">
          {job.title}
        </h1>
        <p className="text-ink-soft">
          {listOf(job.pieces.map((piece) => piece.name))}
          {job.finishedAt === null ? '' : ' · finished'}
        </p>
      </div>
      <JobNavigation job={id} />
      {children}
    </>
  )
}
