import Link from 'next/link'
import { notFound } from 'next/navigation'
import { dayWords } from '#core/time/moments'
import { now } from '#services/clock'
import { readJob } from '#services/jobs/jobs'
import { readPublishedOfJob } from '#services/portfolio/published'
import { readWorkshop } from '#services/workshop/workshop'
import { requireLocalRequest } from '../../../_session'

export default async function JobPortfolioPage({
  params,
}: PageProps<'/jobs/[job]/portfolio'>) {
  await requireLocalRequest()
  const { job: id } = await params
  const [job, out, workshop] = await Promise.all([
    readJob(id),
    readPublishedOfJob(id),
    readWorkshop(),
  ])
  if (job === undefined) notFound()
  const present = now()
  return (
    <>
      <p className="text-ink-soft mb-6 max-w-prose">
        What anyone may see of this job, piece by piece. Nothing is out until
        you publish it, and then only what you chose.
      </p>
      <ul className="flex flex-col gap-4">
        {job.pieces.map((piece) => {
          const page = out.get(piece.id)
          return (
            <li
              key={piece.id}
              className="card flex flex-wrap items-center gap-4 p-4"
            >
              <div className="min-w-0 grow basis-48">
                <h2 className="text-lead font-bold first-letter:uppercase">
                  {piece.name}
                </h2>
                <p className="text-ink-soft">
                  {page === undefined
                    ? 'Not out.'
                    : `Out since ${dayWords(page.publishedAt, present, workshop)}.`}
                </p>
              </div>
              {page !== undefined && (
                <a href={`/portfolio/${page.slug}`} className="button">
                  See its page
                </a>
              )}
              <Link
                prefetch={false}
                href={`/jobs/${id}/portfolio/${piece.id}`}
                className="button button-main"
              >
                Choose what to show
                <span className="sr-only"> of the {piece.name}</span>
              </Link>
            </li>
          )
        })}
      </ul>
    </>
  )
}
