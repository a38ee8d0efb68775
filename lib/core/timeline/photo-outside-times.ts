import type { Photo, Step } from '#core/journal/journal'
import { minutesBetween } from '#core/units'

/** A photo of a step that the times typed for the step leave out. */
export type PhotoOutsideTimes = {
  readonly photo: Photo
  readonly side: 'before' | 'after'
  /** At least so long before the typed start or after the typed end, in minutes. */
  readonly minutes: number
}

/** A photo of what is about to begin is taken a while before; one of what was done, often the next morning. Common practice, no source. */
const leewayMinutes = { before: 60, after: 12 * 60 }

/**
 * The photo of a step that lies farthest outside of the times typed for it, where one lies so far that the day or the hour
 * may be mistyped; undefined where none does, and where no time was typed.
 *
 * @param photos those of the step
 */
export function photoOutsideTimes(
  { startedAt, finishedAt }: Pick<Step, 'startedAt' | 'finishedAt'>,
  photos: readonly Photo[],
): PhotoOutsideTimes | undefined {
  const first = startedAt ?? finishedAt
  const last = finishedAt ?? startedAt
  if (first === undefined || last === undefined) return undefined
  return photos
    .flatMap((photo): readonly PhotoOutsideTimes[] => [
      {
        photo,
        side: 'before',
        minutes: minutesBetween(photo.taken.latest, first),
      },
      {
        photo,
        side: 'after',
        minutes: minutesBetween(last, photo.taken.earliest),
      },
    ])
    .filter(({ side, minutes }) => minutes > leewayMinutes[side])
    .toSorted((one, other) => other.minutes - one.minutes)[0]
}
