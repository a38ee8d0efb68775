import { type FoldScale, momentAt, placeAt } from '#core/timeline/fold-scale'
import {
  type Instant,
  addMinutes,
  minutesBetween,
  minutesPerHour,
} from '#core/units'

/** A day of the workshop's clock; it has 23 or 25 hours where daylight saving begins or ends in it. */
export type ClockDay = {
  readonly from: Instant
  readonly to: Instant
  /** Such as `Sat 24 Oct`. */
  readonly words: string
  /** When its clock was put forward (minutes above 0) or back. */
  readonly change?: { readonly at: Instant; readonly byMinutes: number }
}

/** A line across the lanes with the time that it stands for. */
export type ClockTick = {
  readonly place: number
  readonly at: Instant
  /** On the clock of the day, in minutes from midnight; 0 is the beginning of the day. */
  readonly minuteOfDay: number
  readonly day: ClockDay
}

/** The steps between ticks, in minutes, that divide an hour or a day of 24 hours. */
const tickSteps = [1, 5, 15, 60, 180, 360, 720] as const

/**
 * The ticks to draw between two places: midnights, and times of day as close as there is room for. Between midnight and
 * a change of the clock the ticks stand at whole times before it, from there on at whole times after it; a time that
 * came twice has two ticks, one that never came has none. In a folded pause there are none.
 *
 * @param days in order; a folded pause may leave a hole
 * @param leastLength how far two ticks are apart at the least, in drawn minutes
 */
export function clockTicks(
  scale: FoldScale,
  days: readonly ClockDay[],
  from: number,
  to: number,
  leastLength: number,
): readonly ClockTick[] {
  const start = momentAt(scale, from)
  const end = momentAt(scale, to)
  const step = tickSteps.find((one) => one >= leastLength)
  const ticks: ClockTick[] = []
  for (const day of days) {
    if (day.to < start || day.from > end) continue
    for (const { at, minuteOfDay } of timesOf(day, step)) {
      if (at < start || at > end || isFoldedAt(scale, at)) continue
      ticks.push({ place: placeAt(scale, at), at, minuteOfDay, day })
    }
  }
  return thinned(ticks, leastLength)
}

function timesOf(
  { from, to, change }: ClockDay,
  step: number | undefined,
): readonly { readonly at: Instant; readonly minuteOfDay: number }[] {
  if (step === undefined) return [{ at: from, minuteOfDay: 0 }]
  const times = []
  const first = change === undefined ? to : change.at
  for (let minute = 0; addMinutes(from, minute) < first; minute += step)
    times.push({ at: addMinutes(from, minute), minuteOfDay: minute })
  if (change === undefined) return times
  const shown = minutesBetween(from, change.at) + change.byMinutes
  for (
    let minute = Math.ceil(shown / step) * step;
    addMinutes(change.at, minute - shown) < to;
    minute += step
  )
    times.push({
      at: addMinutes(change.at, minute - shown),
      minuteOfDay: minute,
    })
  return times
}

function isFoldedAt({ stretches }: FoldScale, at: Instant): boolean {
  return stretches.some((one) => one.isFolded && one.from < at && at < one.to)
}

/** A finger hits no place closer than this, in minutes. */
const tappedMinutes = 5

/**
 * The time on the clock that stands nearest to a place, in whole five minutes; undefined in a folded pause, where a finger
 * hits days.
 *
 * @param days in order; a folded pause may leave a hole
 */
export function clockTimeAt(
  scale: FoldScale,
  days: readonly ClockDay[],
  place: number,
): ClockTick | undefined {
  const at = momentAt(scale, place)
  if (isFoldedAt(scale, at)) return undefined
  const times = days
    .filter((day) => day.from <= at && at < day.to)
    .flatMap((day) =>
      timesOf(day, tappedMinutes).map((time) => ({ ...time, day })),
    )
  const [first] = times
  if (first === undefined) return undefined
  const near = times.reduce((best, time) =>
    Math.abs(time.at - at) < Math.abs(best.at - at) ? time : best,
  )
  return { ...near, place: placeAt(scale, near.at) }
}

/** Midnights first: where days are too close for a line each, only some are drawn. */
function thinned(
  ticks: readonly ClockTick[],
  leastLength: number,
): readonly ClockTick[] {
  const kept: ClockTick[] = []
  for (const tick of ticks) {
    const before = kept.at(-1)
    const isClear =
      before === undefined || tick.place - before.place >= leastLength
    if (isClear) kept.push(tick)
    else if (tick.minuteOfDay === 0 && before.minuteOfDay !== 0)
      kept.splice(-1, 1, tick)
  }
  return kept
}

/** The time of a tick: `16:05`, or `4:05 pm` with US units, without the minutes on the hour. */
export function tickWords(minuteOfDay: number, units: 'metric' | 'us'): string {
  const hour = Math.floor(minuteOfDay / minutesPerHour)
  const minute = minuteOfDay % minutesPerHour
  const two = String(minute).padStart(2, '0')
  if (units === 'metric') return `${String(hour).padStart(2, '0')}:${two}`
  const shown = `${hour % 12 === 0 ? 12 : hour % 12}${minute === 0 ? '' : `:${two}`}`
  return `${shown} ${hour < 12 ? 'am' : 'pm'}`
}

/** Night by the clock: from 22:00 to 06:00. Common practice, no source. */
const nightBegins = 22 * minutesPerHour
const nightEnds = 6 * minutesPerHour

/** The nights of these days, from ten in the evening to six by the clock; those at a hole are cut off. */
export function nightsOf(
  days: readonly ClockDay[],
): readonly { readonly from: Instant; readonly to: Instant }[] {
  return days.flatMap((day, index) => {
    const before = days[index - 1]
    const next = days[index + 1]
    const isNextDrawn = next?.from === day.to
    const evening = {
      from: atClock(day, nightBegins),
      to: isNextDrawn ? atClock(next, nightEnds) : day.to,
    }
    return before?.to === day.from
      ? [evening]
      : [{ from: day.from, to: atClock(day, nightEnds) }, evening]
  })
}

/** The moment of a time by the clock of a day; of two, the later. */
function atClock({ from, change }: ClockDay, minuteOfDay: number): Instant {
  const plain = addMinutes(from, minuteOfDay)
  return change === undefined || plain < change.at
    ? plain
    : addMinutes(plain, -change.byMinutes)
}
