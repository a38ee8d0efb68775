import { type Instant, addMinutes, instant, minutesBetween } from '#core/units'

/** A stretch of time as it is drawn: to scale, or folded, when nothing happened in it for long. */
export type Stretch = {
  readonly from: Instant
  readonly to: Instant
  /** Where it begins, and how long it is drawn, in drawn minutes. */
  readonly place: number
  readonly length: number
  readonly isFolded: boolean
}

/**
 * Time as it runs across a drawing. A place is counted in drawn minutes from the first moment: they are minutes, except
 * where a pause is folded.
 */
export type FoldScale = {
  /** Each begins where the one before it ends; never empty. */
  readonly stretches: readonly Stretch[]
  /** Of the whole, in drawn minutes. */
  readonly length: number
}

/** A pause longer than this, in minutes, is folded; two days let every usual coat dry to scale. Common practice, no source. */
const longestPauseMinutes = 2 * 24 * 60
/** So much of a folded pause is drawn to scale at each of its ends, and so long the rest is drawn. */
const keptMinutes = 6 * 60
const foldedLength = 3 * 60
/** A job of one moment still has room around it. */
const leastLengthMinutes = 60

/**
 * The scale for moments at which something happened: long pauses between them are folded.
 *
 * @throws RangeError without a moment
 */
export function foldScale(moments: readonly Instant[]): FoldScale {
  const sorted = moments.toSorted((one, other) => one - other)
  const [first] = sorted
  const last = sorted.at(-1)
  if (first === undefined || last === undefined)
    throw new RangeError('foldScale: expected at least one moment, got none')
  const stretches: Stretch[] = []
  let place = 0
  const add = (from: Instant, to: Instant, isFolded: boolean) => {
    const length = isFolded ? foldedLength : minutesBetween(from, to)
    if (length <= 0) return
    stretches.push({ from, to, place, length, isFolded })
    place += length
  }
  let begun = first
  let before = first
  for (const moment of sorted) {
    if (minutesBetween(before, moment) > longestPauseMinutes) {
      const folds = addMinutes(before, keptMinutes)
      const unfolds = addMinutes(moment, -keptMinutes)
      add(begun, folds, false)
      add(folds, unfolds, true)
      begun = unfolds
    }
    before = moment
  }
  const shortest = addMinutes(begun, leastLengthMinutes)
  add(begun, last > shortest ? last : shortest, false)
  return { stretches, length: place }
}

/** Where a moment is drawn, in drawn minutes; moments outside the scale lie before and after it, a minute to a minute. */
export function placeAt(scale: FoldScale, at: Instant): number {
  const { stretches } = scale
  const stretch = lastThat(stretches, (one) => one.from <= at) ?? stretches[0]
  if (stretch === undefined) return 0
  const minutes = minutesBetween(stretch.from, at)
  if (at <= stretch.from || !stretch.isFolded) return stretch.place + minutes
  const whole = minutesBetween(stretch.from, stretch.to)
  return stretch.place + (minutes / whole) * stretch.length
}

/** Which moment is drawn at a place: the inverse of `placeAt`, to the millisecond where nothing is folded. */
export function momentAt(scale: FoldScale, place: number): Instant {
  const { stretches } = scale
  const stretch =
    lastThat(stretches, (one) => one.place <= place) ?? stretches[0]
  if (stretch === undefined) return instant(0)
  const drawn = place - stretch.place
  if (drawn <= 0 || !stretch.isFolded)
    return instant(Math.round(stretch.from + drawn * 60_000))
  const whole = stretch.to - stretch.from
  return instant(Math.round(stretch.from + (drawn / stretch.length) * whole))
}

/** The last for which the test holds, in a list where it holds for the first ones only. */
function lastThat<Item>(
  items: readonly Item[],
  holds: (item: Item) => boolean,
): Item | undefined {
  let low = 0
  let high = items.length
  while (low < high) {
    const middle = (low + high) >> 1
    const item = items[middle]
    if (item !== undefined && holds(item)) low = middle + 1
    else high = middle
  }
  return items[low - 1]
}
