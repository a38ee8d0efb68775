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
  const [first, ...others] = spans
  if (first === undefined)
    throw new RangeError('firstOf: expected at least one span, got none')
  return others.reduce(
    (one, other) => ({
      earliest: lesser(one.earliest, other.earliest),
      at: lesser(one.at, other.at),
      latest: lesser(one.latest, other.latest),
    }),
    first,
  )
}

/**
 * The last of several moments, each known as a span.
 *
 * @throws RangeError when there are none
 */
export function lastOf(spans: readonly Span[]): Span {
  const [first, ...others] = spans
  if (first === undefined)
    throw new RangeError('lastOf: expected at least one span, got none')
  return others.reduce(
    (one, other) => ({
      earliest: greater(one.earliest, other.earliest),
      at: greater(one.at, other.at),
      latest: greater(one.latest, other.latest),
    }),
    first,
  )
}

function lesser(one: Instant, other: Instant): Instant {
  return one < other ? one : other
}

function greater(one: Instant, other: Instant): Instant {
  return one > other ? one : other
}

/** The time from `end` to `start`: negative where the spans allow the later step to have come first. */
export function elapsedBetween(end: Span, start: Span): Elapsed {
  return {
    low: minutes((start.earliest - end.latest) / millisecondsPerMinute),
    high: minutes((start.latest - end.earliest) / millisecondsPerMinute),
  }
}
