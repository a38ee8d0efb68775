import 'server-only'
import type { Bench, BenchEntry } from '#core/bench/bench'
import { benchEntries } from '#core/bench/bench-entries'
import { type BenchMoment, benchMoments } from '#core/bench/bench-moments'
import { judgeBench } from '#core/bench/judge-bench'
import { nextChange } from '#core/bench/next-change'
import type { Units } from '#core/measures/units-of-measure'
import { type ComingCoat, comingCoats } from '#core/snap/snap-target'
import { readTimeline } from '#core/timeline/read-timeline'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { readJournals } from '#services/journal/read-journal'
import { readWorkshop } from '#services/workshop/workshop'

/** The longest that a finish may cure after its job was finished; label times of `cureDays` stay well under it. */
const longestCureDays = 120
const jobsAtOnce = 200

type JobState = {
  readonly id: string
  readonly revision: number
  readonly finishedAt: Instant | null
}

type Kept = {
  /** The database it was read from. */
  readonly source: unknown
  /** What its sentences are written in. */
  readonly units: Units
  stamp: string
  jobs: readonly JobState[]
  /** What was computed from a job holds until its revision changes, whatever the hour; only the judgement needs that. */
  readonly entries: Map<
    string,
    { readonly revision: number; readonly entries: readonly BenchEntry[] }
  >
  /** All of them in one list, and since when its finished jobs were finished. */
  list: {
    readonly stamp: string
    readonly since: Instant
    readonly entries: readonly BenchEntry[]
  }
  /** The list as it was judged last, and until when that holds. */
  judged?: {
    readonly entries: readonly BenchEntry[]
    readonly bench: Bench
    readonly until: Instant | undefined
    ahead?: Omit<Ahead, 'bench'>
  }
}

/** A bench with what lies ahead of it. */
export type Ahead = {
  readonly bench: Bench
  readonly moments: readonly BenchMoment[]
  readonly coming: readonly ComingCoat[]
}

const kept = globalThis as typeof globalThis & { coatbookBench?: Kept }

/**
 * The bench across all jobs as of an instant: the open ones, and those finished lately enough to be curing still.
 *
 * While nothing has changed it costs two small queries, however many jobs there are; else the jobs that changed are read.
 */
export async function readBench(at: Instant): Promise<Bench> {
  const bench = await upToDate(at)
  const since = addMinutes(at, -longestCureDays * minutesPerDay)
  // A list from an earlier hour holds all that is needed: what has cured since is dropped by the judgement.
  if (bench.list.stamp !== bench.stamp || bench.list.since > since) {
    const { stamp } = bench
    const jobs = bench.jobs.filter(
      (job) => job.finishedAt === null || job.finishedAt >= since,
    )
    await computeStale(bench, jobs)
    const entries = jobs.flatMap(
      (job) => bench.entries.get(job.id)?.entries ?? [],
    )
    bench.list = { stamp, since, entries }
  }
  return judged(bench, at)
}

/** The bench as of an instant and what lies ahead of it: every page asks for that, so it is kept as long as the judgement holds. */
export async function readAhead(at: Instant): Promise<Ahead> {
  const bench = await readBench(at)
  const judgement = kept.coatbookBench?.judged
  const isCurrent = judgement?.bench.ready === bench.ready
  const known = isCurrent ? judgement.ahead : undefined
  if (known !== undefined) return { bench, ...known }
  const ahead = { moments: benchMoments(bench), coming: comingCoats(bench) }
  if (isCurrent) judgement.ahead = ahead
  return { bench, ...ahead }
}

function judged(bench: Kept, at: Instant): Bench {
  const { entries } = bench.list
  const before = bench.judged
  if (
    before?.entries === entries &&
    before.bench.at <= at &&
    (before.until === undefined || at < before.until)
  ) {
    return { ...before.bench, at }
  }
  const now = judgeBench(entries, at)
  bench.judged = { entries, bench: now, until: nextChange(entries, at) }
  return now
}

async function upToDate(at: Instant): Promise<Kept> {
  const [db, { units }] = await Promise.all([database(), readWorkshop()])
  if (kept.coatbookBench?.source !== db || kept.coatbookBench.units !== units) {
    kept.coatbookBench = {
      source: db,
      units,
      stamp: '',
      jobs: [],
      entries: new Map(),
      list: { stamp: '', since: at, entries: [] },
    }
  }
  const bench = kept.coatbookBench
  // Revisions only rise, also when a job goes into the bin or comes back: any change raises the sum or the count.
  const { _count, _sum } = await db.job.aggregate({
    _count: true,
    _sum: { revision: true },
  })
  const stamp = `${_count} ${_sum.revision ?? 0}`
  if (bench.stamp === stamp) return bench
  const rows = await db.job.findMany({
    where: notInBin,
    select: { id: true, revision: true, finishedAt: true },
  })
  bench.jobs = rows.map((row) => ({
    ...row,
    finishedAt: row.finishedAt === null ? null : toInstant(row.finishedAt),
  }))
  bench.stamp = stamp
  return bench
}

async function computeStale(
  bench: Kept,
  jobs: readonly JobState[],
): Promise<void> {
  const stale = jobs.filter(
    (job) => bench.entries.get(job.id)?.revision !== job.revision,
  )
  const revisionOf = new Map(stale.map((job) => [job.id, job.revision]))
  for (let start = 0; start < stale.length; start += jobsAtOnce) {
    const ids = stale.slice(start, start + jobsAtOnce).map((job) => job.id)
    for (const journal of await readJournals(ids)) {
      bench.entries.set(journal.job.id, {
        revision: revisionOf.get(journal.job.id) ?? 0,
        entries: benchEntries(journal, readTimeline(journal, bench.units)),
      })
    }
  }
}
