import { type ReadingFault, judgeReadings } from '#core/air/judge-readings'
import type { AirReading } from '#core/air/reading'
import type { StepTime } from '#core/drying/judge-gap'
import type { Units } from '#core/measures/units-of-measure'
import type { TimelineWarning } from '#core/timeline/timeline'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'

/** A coat is taken to be drying for this long after the last step. */
const dryingDays = 2

const kinds: Record<ReadingFault['kind'], TimelineWarning['kind']> = {
  gap: 'air-gap',
  spike: 'air-spike',
  stuck: 'air-stuck',
}

/**
 * What is doubtful about the readings while a job's coats were drying: one warning of each kind, about the longest, with
 * the number of the others.
 *
 * @param readings in order of time
 * @param coats when the coats of the job went on
 * @param units what they are written in
 */
export function readingWarnings(
  readings: readonly AirReading[],
  coats: readonly StepTime[],
  units: Units = 'metric',
): readonly TimelineWarning[] {
  const [first] = coats
  if (first === undefined || readings.length === 0) return []
  let from: Instant = first.started.at
  let last: Instant = first.finished.at
  for (const { started, finished } of coats) {
    if (started.at < from) from = started.at
    if (finished.at > last) last = finished.at
  }
  const to = addMinutes(last, dryingDays * minutesPerDay)
  const faults = judgeReadings(readings, units).filter(
    (fault) => fault.to > from && fault.from < to,
  )
  return (['gap', 'spike', 'stuck'] as const).flatMap((kind) => {
    const same = faults
      .filter((fault) => fault.kind === kind)
      .sort((one, other) => other.to - other.from - (one.to - one.from))
    const [longest] = same
    if (longest === undefined) return []
    const others =
      same.length === 1
        ? ''
        : ` There ${same.length === 2 ? 'is one more' : `are ${same.length - 1} more`} like it.`
    return [
      {
        kind: kinds[kind],
        during: { from: longest.from, to: longest.to },
        detail: `While the coats of this job dried: ${longest.detail.charAt(0).toLowerCase()}${longest.detail.slice(1)}${others}`,
      },
    ]
  })
}
