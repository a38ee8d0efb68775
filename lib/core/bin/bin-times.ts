import { type MomentStyle, dayWords } from '#core/time/moments'
import {
  type Instant,
  addMinutes,
  instant,
  minutesBetween,
  minutesPerDay,
} from '#core/units'

/** How long things stay that were removed. */
export type BinRules = {
  /** Days in the bin, 1 or more; absent: until their owner brings them back. */
  readonly keepDays?: number
  /** Days that the file of a photo stays on the disk after the photo is gone for good: 0 or more. */
  readonly originalDays: number
}

/** A month to miss something, and a week more for the files: common practice, no source. */
export const usualBinRules: BinRules = { keepDays: 30, originalDays: 7 }

/**
 * When something in the bin goes for good; undefined when it never goes by itself.
 *
 * @param countsFrom what went in before is counted from then
 */
export function goesAt(
  removedAt: Instant,
  { keepDays }: Pick<BinRules, 'keepDays'>,
  countsFrom: Instant,
): Instant | undefined {
  if (keepDays === undefined) return undefined
  return addMinutes(
    instant(Math.max(removedAt, countsFrom)),
    keepDays * minutesPerDay,
  )
}

/**
 * The last moment of removal of what is due to go now; undefined when nothing is, whenever it went in.
 *
 * @param countsFrom as in {@link goesAt}
 */
export function dueUntil(
  now: Instant,
  { keepDays }: Pick<BinRules, 'keepDays'>,
  countsFrom: Instant,
): Instant | undefined {
  if (keepDays === undefined) return undefined
  const last = addMinutes(now, -keepDays * minutesPerDay)
  return last < countsFrom ? undefined : last
}

/** After a longer pause than this, nothing is removed at the first look: the clock may have jumped. Common practice, no source. */
const longestPauseDays = 60
const betweenLooks = minutesPerDay

/** What a look into the bin is to do. */
export type BinLook = {
  /** `wait`: it was looked at within the day; `begin`: remember this look, and remove nothing; `empty`: remove what is due. */
  readonly does: 'wait' | 'begin' | 'empty'
  readonly countsFrom: Instant
}

/**
 * What a look into the bin is to do. The first look only begins to count. So does one before the last, for the clock was
 * set back, and one long after it, for the clock may have jumped: what cannot be undone waits for a second look.
 *
 * @param last when it was looked at before, and what its days count from; absent when it never was
 */
export function judgeBinLook(
  now: Instant,
  last: { readonly lookedAt?: Instant; readonly countsFrom?: Instant },
): BinLook {
  const countsFrom = instant(Math.min(last.countsFrom ?? now, now))
  const { lookedAt } = last
  if (last.countsFrom === undefined || lookedAt === undefined) {
    return { does: 'begin', countsFrom }
  }
  const pause = minutesBetween(lookedAt, now)
  if (pause < 0 || pause > longestPauseDays * minutesPerDay) {
    return { does: 'begin', countsFrom }
  }
  return { does: pause < betweenLooks ? 'wait' : 'empty', countsFrom }
}

/** When something in the bin goes, as the end of a sentence about it: `goes for good Sat 24 Oct`. */
export function goesWords(
  goes: Instant | undefined,
  now: Instant,
  style: MomentStyle,
): string {
  if (goes === undefined) return 'stays until you bring it back'
  if (goes <= now) return 'goes for good within a day'
  return `goes for good ${dayWords(goes, now, style)}`
}

/** A number of days in words: `1 day`, `30 days`. */
export function daysWords(days: number): string {
  return days === 1 ? '1 day' : `${days} days`
}
