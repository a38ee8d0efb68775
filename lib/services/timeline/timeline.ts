import 'server-only'
import type { Journal } from '#core/journal/journal'
import { readTimeline } from '#core/timeline/read-timeline'
import type { Timeline } from '#core/timeline/timeline'
import { readJournal } from '#services/journal/read-journal'

/** A job's journal and the timeline computed from it, or undefined when there is no such job. */
export async function readJobTimeline(
  jobId: string,
): Promise<
  { readonly journal: Journal; readonly timeline: Timeline } | undefined
> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return undefined
  return { journal, timeline: readTimeline(journal) }
}
