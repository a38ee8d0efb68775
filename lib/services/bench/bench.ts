import 'server-only'
import { type Bench, type BenchEntry } from '#core/bench/bench'
import { benchEntries } from '#core/bench/bench-entries'
import { judgeBench } from '#core/bench/judge-bench'
import { readTimeline } from '#core/timeline/read-timeline'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { readJournals } from '#services/journal/read-journal'

/** The longest that a finish may cure after its job was finished; label times of `cureDays` stay well under it. */
const longestCureDays = 120
const jobsAtOnce = 200

type Computed = {
  readonly revision: number
  readonly entries: readonly BenchEntry[]
}

// What was computed from a job holds until its revision changes, whatever the hour; only the judgement needs the hour.
const kept = globalThis as typeof globalThis & {
  coatbookBench?: Map<string, Computed>
}

/**
 * The bench across all jobs as of an instant: the open ones, and those finished lately enough to be curing still.
 *
 * Jobs that have not changed since the last time are not read again.
 */
export async function readBench(at: Instant): Promise<Bench> {
  const db = await database()
  const jobs = await db.job.findMany({
    where: {
      OR: [
        { finishedAt: null },
        {
          finishedAt: {
            gte: toDate(addMinutes(at, -longestCureDays * minutesPerDay)),
          },
        },
      ],
    },
    select: { id: true, revision: true },
  })
  const before = (kept.coatbookBench ??= new Map<string, Computed>())
  const stale = jobs.filter(
    (job) => before.get(job.id)?.revision !== job.revision,
  )
  const revisionOf = new Map(jobs.map((job) => [job.id, job.revision]))
  for (let start = 0; start < stale.length; start += jobsAtOnce) {
    const ids = stale.slice(start, start + jobsAtOnce).map((job) => job.id)
    for (const journal of await readJournals(ids)) {
      before.set(journal.job.id, {
        revision: revisionOf.get(journal.job.id) ?? 0,
        entries: benchEntries(journal, readTimeline(journal)),
      })
    }
  }
  return judgeBench(
    jobs.flatMap((job) => before.get(job.id)?.entries ?? []),
    at,
  )
}
