import 'server-only'
import type { Instant } from '#core/units'
import { writeListing } from '#core/write-ups/write-listing'
import type { WriteUp } from '#core/write-ups/write-up'
import { writeVideoDescription } from '#core/write-ups/write-video-description'
import { readJobTimeline } from '#services/timeline/timeline'
import { readWorkshop } from '#services/workshop/workshop'

/** A job's sale listing as of an instant, or undefined when there is no such job. */
export async function readListing(
  jobId: string,
  now: Instant,
): Promise<WriteUp | undefined> {
  const found = await readJobTimeline(jobId)
  if (found === undefined) return undefined
  return writeListing({ ...found, settings: await readWorkshop(), now })
}

/** The description of a video about a job, or undefined when there is no such job. */
export async function readVideoDescription(
  jobId: string,
): Promise<WriteUp | undefined> {
  const found = await readJobTimeline(jobId)
  if (found === undefined) return undefined
  return writeVideoDescription({ ...found, settings: await readWorkshop() })
}
