import type { Journal, Step } from '#core/journal/journal'
import { type MomentStyle, momentWords, timeOfDay } from '#core/time/moments'
import { startOfDay } from '#core/time/zone'
import { stepTimesIn } from '#core/timeline/step-times'
import type { Instant } from '#core/units'

/**
 * When a step was, and what says so: `today 09:10 to 09:42, by its photos`; undefined where nothing tells yet. Nobody typed
 * the start of a step that was started as it began.
 */
export function stepWhen(
  journal: Journal,
  step: Step,
  present: Instant,
  style: MomentStyle,
): string | undefined {
  const times = stepTimesIn(journal, step)
  if (times === undefined) return undefined
  const from = times.faceTime.started.at
  const to = times.faceTime.finished.at
  const start = momentWords(from, present, style)
  const end =
    startOfDay(from, style.zone) === startOfDay(to, style.zone)
      ? timeOfDay(to, style)
      : momentWords(to, present, style)
  const span = timeOfDay(from, style) === end ? start : `${start} to ${end}`
  return `${span}, ${sourceWords(step, step.photoIds.length)}`
}

function sourceWords(
  { startedAt, finishedAt, createdAt }: Step,
  photoCount: number,
): string {
  // Both are one instant, to the millisecond, only where the program wrote the start down.
  const isNoted = startedAt === createdAt
  const isTyped =
    finishedAt !== undefined || (startedAt !== undefined && !isNoted)
  const isTold = startedAt !== undefined && finishedAt !== undefined
  const photos = photoCount === 1 ? 'by its photo' : 'by its photos'
  return [
    isNoted ? 'as noted at its start' : [],
    isTyped ? 'as typed' : [],
    photoCount === 0 || isTold ? [] : photos,
  ]
    .flat()
    .join(' and ')
}
