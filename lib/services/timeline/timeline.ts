import 'server-only'
import type { Journal } from '#core/journal/journal'
import { readTimeline } from '#core/timeline/read-timeline'
import type { Timeline } from '#core/timeline/timeline'
import { readJournal } from '#services/journal/read-journal'
import { readWorkshop } from '#services/workshop/workshop'

/**
 * A job's journal and the timeline computed from it, told in the workshop's units; undefined when there is no such job.
 */
export async function readJobTimeline(
  jobId: string,
): Promise<
  { readonly journal: Journal; readonly timeline: Timeline } | undefined
> {
  const [journal, { units }] = await Promise.all([
    readJournal(jobId),
    readWorkshop(),
  ])
  if (journal === undefined) return undefined
  return { journal, timeline: readTimeline(journal, units) }
}
