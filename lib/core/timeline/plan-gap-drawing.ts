import type { AirReading } from '#core/air/reading'
import type { DryCheck } from '#core/drying/dry-check'
import {
  type Instant,
  addMinutes,
  millisecondsPerMinute,
  minutes,
} from '#core/units'

/** A place across the drawing: 0 is the end of the coat, 1 the right edge. */
type Across = number
/** A place up the drawing: 0 is the bottom, 1 the top. */
type Up = number

/** One quantity of the air over the gap, scaled to its own lowest and highest value. */
export type AirLine = {
  readonly points: readonly { readonly x: Across; readonly y: Up }[]
  readonly lowest: number
  readonly highest: number
}

/** A gap between two steps, ready to be drawn. */
export type GapDrawing = {
  /** Where the later step began, at the latest. */
  readonly waited: Across
  /** The label's earliest and latest time for the later step, and when it was dry enough in the air there was. */
  readonly labelMin?: Across
  readonly labelMax?: Across
  readonly required?: Across
  /** From here to `waited` time is drawn closer: a long pause is folded. */
  readonly folded?: Across
  /** °C; absent where there are no readings. */
  readonly temperature?: AirLine
  /** Relative humidity, percent. */
  readonly humidity?: AirLine
}

/** How many times the needed wait is drawn to scale before the rest is folded. */
const scaleOfWaits = 1.5
/** Where the fold begins and where a folded wait ends. */
const foldBegins = 0.72
const foldEnds = 0.92
/** More points than this on one line cannot be told apart on a phone. */
const pointsAtMost = 60
/** A line that hardly moves is drawn calm: the scale never spans less than this. */
const leastRange = { celsius: 4, humidity: 10 }

/**
 * A dry check as a drawing: the wait, the label's times and the air, on one time axis.
 *
 * @param coatEnded when the earlier step ended, the anchor of the axis
 * @param air the workshop's readings, in order of time
 * @returns undefined where there is no wait to draw: the later step may have come first
 */
export function planGapDrawing(
  check: DryCheck,
  coatEnded: Instant,
  air: readonly AirReading[],
): GapDrawing | undefined {
  const waited = check.elapsed.high
  if (waited <= 0) return undefined
  const needed = Math.max(check.required ?? 0, check.label.min ?? 0)
  const unfolded = needed * scaleOfWaits
  const folds = needed > 0 && waited > unfolded * 2
  const width = folds ? unfolded : Math.max(waited, needed) * 1.08
  const across = (length: number): Across => {
    if (!folds) return Math.min(1, length / width)
    if (length <= unfolded) return (length / unfolded) * foldBegins
    if (length >= waited) return length === waited ? foldEnds : 1
    return (
      foldBegins +
      ((length - unfolded) / (waited - unfolded)) * (foldEnds - foldBegins)
    )
  }
  const lines = airLines(air, coatEnded, waited, across)
  return {
    waited: across(waited),
    ...(check.label.min !== undefined && { labelMin: across(check.label.min) }),
    ...(check.label.max !== undefined && { labelMax: across(check.label.max) }),
    ...(check.required !== undefined && { required: across(check.required) }),
    ...(folds && { folded: foldBegins }),
    ...lines,
  }
}

function airLines(
  air: readonly AirReading[],
  coatEnded: Instant,
  waited: number,
  across: (length: number) => Across,
): { readonly temperature?: AirLine; readonly humidity?: AirLine } {
  const ends = addMinutes(coatEnded, waited)
  const inside = air.filter(({ at }) => at >= coatEnded && at <= ends)
  if (inside.length < 2) return {}
  const every = Math.ceil(inside.length / pointsAtMost)
  const shown = inside.filter(
    (_, index) => index % every === 0 || index === inside.length - 1,
  )
  const line = (value: (reading: AirReading) => number, range: number) => {
    const values = shown.map(value)
    const middle = (Math.min(...values) + Math.max(...values)) / 2
    const half = Math.max(range, Math.max(...values) - Math.min(...values)) / 2
    return {
      points: shown.map((reading) => ({
        x: across(minutes((reading.at - coatEnded) / millisecondsPerMinute)),
        y: (value(reading) - (middle - half)) / (2 * half),
      })),
      lowest: Math.min(...values),
      highest: Math.max(...values),
    }
  }
  return {
    temperature: line(({ celsius }) => celsius, leastRange.celsius),
    humidity: line(({ humidity }) => humidity, leastRange.humidity),
  }
}
