import { z } from 'zod'
import type { Span } from '#core/time/span'
import type { Instant } from '#core/units'

/** An instant as the interface gives it: ISO 8601, UTC, to the millisecond. */
export const instantAnswer = z.iso.datetime().meta({
  id: 'Instant',
  description: 'An instant: ISO 8601 in UTC, to the millisecond.',
})

/** When something happened as the interface gives it: earliest, best and latest instant. */
export const spanAnswer = z
  .object({ earliest: instantAnswer, at: instantAnswer, latest: instantAnswer })
  .meta({
    id: 'Span',
    description:
      'When something happened, as well as it is known: earliest <= at <= latest.',
  })

/** An instant as text, null where there is none. */
export function instantToAnswer(at: Instant): string
export function instantToAnswer(at: Instant | null | undefined): string | null
export function instantToAnswer(at: Instant | null | undefined): string | null {
  return at === null || at === undefined ? null : new Date(at).toISOString()
}

/** A span as text, null where nothing tells when it was. */
export function spanToAnswer(
  span: Span | undefined,
): z.input<typeof spanAnswer> | null {
  return span === undefined
    ? null
    : {
        earliest: instantToAnswer(span.earliest),
        at: instantToAnswer(span.at),
        latest: instantToAnswer(span.latest),
      }
}
