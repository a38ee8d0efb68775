import type { CameraClock } from '#core/time/capture-time'
import type { Span } from '#core/time/span'
import { type Instant, instant, millisecondsPerSecond } from '#core/units'

/** One moment as a camera's clock had it and as it was. */
export type ClockComparison = {
  /** The camera's own time, uncorrected, read in the workshop's zone where it wrote no offset. */
  readonly camera: Span
  /** The bounds that the moment truly lies in. */
  readonly truth: { readonly earliest: Instant; readonly latest: Instant }
}

/** A satellite fix is taken at most so long before the photo that it is written in; common practice, no source. */
export const staleFixMilliseconds = 600_000

/**
 * How far a camera's clock is off, from moments whose true time is known within bounds: the corrections that all of them
 * allow, by their middle. The more of them, the narrower.
 *
 * @returns undefined without a comparison, or when no one correction fits them all: the clock was set in between
 */
export function clockError(
  comparisons: readonly ClockComparison[],
): CameraClock | undefined {
  if (comparisons.length === 0) return undefined
  const least = Math.max(
    ...comparisons.map(({ camera, truth }) => truth.earliest - camera.latest),
  )
  const most = Math.min(
    ...comparisons.map(({ camera, truth }) => truth.latest - camera.earliest),
  )
  if (least > most) return undefined
  const correctionSeconds = Math.round(
    (least + most) / 2 / millisecondsPerSecond,
  )
  const furthest = Math.max(
    most - correctionSeconds * millisecondsPerSecond,
    correctionSeconds * millisecondsPerSecond - least,
  )
  return {
    correctionSeconds,
    uncertaintySeconds: Math.ceil(furthest / millisecondsPerSecond),
  }
}

/** A photo that holds satellite time: it was taken at the fix or up to ten minutes after it. */
export function againstSatellite(camera: Span, fix: Instant): ClockComparison {
  return { camera, truth: bounds(fix, 0, staleFixMilliseconds) }
}

/**
 * A photo of a clock that is right, such as a phone's.
 *
 * @param shown what the clock shows, with its zone
 * @param to the smallest unit it shows: it may be later by nearly that much
 */
export function againstShownClock(
  camera: Span,
  shown: Instant,
  to: 'second' | 'minute',
): ClockComparison {
  const blur = (to === 'minute' ? 60 : 1) * millisecondsPerSecond - 1
  return { camera, truth: bounds(shown, 0, blur) }
}

/**
 * A photo taken at the same moment as one of another camera, whose time is trusted.
 *
 * @param apartSeconds how long the one may have been taken before or after the other
 */
export function againstOtherCamera(
  camera: Span,
  other: Span,
  apartSeconds: number,
): ClockComparison {
  const apart = apartSeconds * millisecondsPerSecond
  return {
    camera,
    truth: {
      earliest: bounds(other.earliest, -apart, 0).earliest,
      latest: bounds(other.latest, 0, apart).latest,
    },
  }
}

function bounds(
  at: Instant,
  before: number,
  after: number,
): ClockComparison['truth'] {
  return { earliest: instant(at + before), latest: instant(at + after) }
}
