import Link from 'next/link'
import type { BenchEntry } from '#core/bench/bench'

/** So many are asked about at once; the next follow when these are answered. */
const askedAtOnce = 3

/** Jobs that have their after photos and have cured since, but were not said to be finished. */
export function DoneJobs({
  entries,
  finish,
}: {
  readonly entries: readonly BenchEntry[]
  readonly finish: (job: string) => Promise<void>
}) {
  const jobs = new Map(entries.map(({ job }) => [job.id, job.title]))
  if (jobs.size === 0) return null
  return (
    <ul className="mb-6 flex flex-col gap-3 print:hidden">
      {[...jobs].slice(0, askedAtOnce).map(([id, title]) => (
        <li
          key={id}
          className="card flex flex-wrap items-center justify-between gap-3 p-4"
        >
          <p className="max-w-prose">
            <Link
              prefetch={false}
              href={`/jobs/${id}/timeline`}
              className="link font-bold"
            >
              {title}
            </Link>{' '}
            has its after photos and has cured since. Is it finished?
          </p>
          <form action={finish.bind(null, id)}>
            <button className="button">
              The job is finished<span className="sr-only">: {title}</span>
            </button>
          </form>
        </li>
      ))}
    </ul>
  )
}
