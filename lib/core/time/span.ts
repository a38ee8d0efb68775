import {
  type Instant,
  type Minutes,
  millisecondsPerMinute,
  minutes,
} from '#core/units'

/** When something happened, as well as it is known: `earliest <= at <= latest`. */
export type Span = {
  readonly earliest: Instant
  readonly at: Instant
  readonly latest: Instant
}

/** How long something took, as well as it is known: `low <= high`, in minutes. */
export type Elapsed = { readonly low: Minutes; readonly high: Minutes }

/**
 * A span of instants.
 *
 * @throws RangeError unless `earliest <= at <= latest`
 */
export function span(earliest: Instant, at: Instant, latest: Instant): Span {
  if (!(earliest <= at && at <= latest)) {
    throw new RangeError(
      `span: expected earliest <= at <= latest, got ${earliest}, ${at}, ${latest}`,
    )
  }
  return { earliest, at, latest }
}

/** An instant that is known exactly. */
export function exactly(at: Instant): Span {
  return { earliest: at, at, latest: at }
}

/**
 * The first of several moments, each known as a span.
 *
 * @throws RangeError when there are none
 */
export function firstOf(spans: readonly Span[]): Span {
  if (spans.length === 0)
    throw new RangeError('firstOf: expected at least one span, got none')
  return {
    earliest: Math.min(...spans.map((one) => one.earliest)) as Instant,
    at: Math.min(...spans.map((one) => one.at)) as Instant,
    latest: Math.min(...spans.map((one) => one.latest)) as Instant,
  }
}

/**
 * The last of several moments, each known as a span.
 *
 * @throws RangeError when there are none
 */
export function lastOf(spans: readonly Span[]): Span {
  if (spans.length === 0)
    throw new RangeError('lastOf: expected at least one span, got none')
  return {
    earliest: Math.max(...spans.map((one) => one.earliest)) as Instant,
    at: Math.max(...spans.map((one) => one.at)) as Instant,
    latest: Math.max(...spans.map((one) => one.latest)) as Instant,
  }
}

/** The time from `end` to `start`: negative where the spans allow the later step to have come first. */
export function elapsedBetween(end: Span, start: Span): Elapsed {
  return {
    low: minutes((start.earliest - end.latest) / millisecondsPerMinute),
    high: minutes((start.latest - end.earliest) / millisecondsPerMinute),
  }
}
