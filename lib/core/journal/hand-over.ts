import { type MomentStyle, dayInFull } from '#core/time/moments'
import { whyNotThen } from '#core/time/when-it-was'
import { startOfDay } from '#core/time/zone'
import type { Instant } from '#core/units'

/** The days on which a job was sold and on which the buyer took it, each as a moment of that day; null: it was not. */
export type HandOver = {
  readonly soldAt: Instant | null
  readonly deliveredAt: Instant | null
}

/** What its days are held against. */
export type HandedOverJob = {
  /** The first moment that a photo or a step of it can be of; absent: it has neither. */
  readonly begunAt?: Instant
  /** Whether somebody ordered it: then it may be sold before the work begins. */
  readonly isOrdered: boolean
}

/**
 * Why a job cannot have been sold or delivered on such a day, with the day that is wrong, in words for the one who typed
 * it; undefined when it can. Days are those of the workshop's zone.
 */
export function whyNotHandedOver(
  { soldAt, deliveredAt }: HandOver,
  { begunAt, isOrdered }: HandedOverJob,
  now: Instant,
  style: MomentStyle,
): { readonly day: 'sold' | 'delivered'; readonly reason: string } | undefined {
  const dayOf = (at: Instant) => startOfDay(at, style.zone)
  for (const [day, at] of [
    ['sold', soldAt],
    ['delivered', deliveredAt],
  ] as const) {
    if (at === null) continue
    const never = whyNotThen(at, now)
    if (never !== undefined) return { day, reason: never }
    if (dayOf(at) > dayOf(now)) {
      return {
        day,
        reason: 'That day is still to come. Write it down when it has been.',
      }
    }
    if (
      begunAt !== undefined &&
      dayOf(at) < dayOf(begunAt) &&
      !(day === 'sold' && isOrdered)
    ) {
      return {
        day,
        reason: `That is before the first photo or step of this job, of ${dayInFull(begunAt, style)}.`,
      }
    }
  }
  return soldAt !== null &&
    deliveredAt !== null &&
    dayOf(deliveredAt) < dayOf(soldAt)
    ? {
        day: 'delivered',
        reason: 'That is before it was sold. Look at both days.',
      }
    : undefined
}
