import type { AirReading } from '#core/air/reading'
import { type DryingSpeed, dryingSpeed } from '#core/drying/drying-speed'
import type { Chemistry, ReferenceAir } from '#core/shelf/product'
import { minute } from '../air/any-air'

/**
 * The dryness gained between two moments, in minutes of the label's air: the plain way, walking all readings
 * again for every gap. What the fast way is held against.
 */
export function slowDrying(
  readings: readonly AirReading[],
  chemistry: Chemistry,
  reference: ReferenceAir,
  from: number,
  to: number,
): DryingSpeed {
  if (to <= from) return { low: 0, high: 0 }
  const hold = 720 * minute
  const bounds = new Set([from, to])
  for (const [i, { at }] of readings.entries()) {
    for (const bound of [at - hold, at, at + hold]) bounds.add(bound)
    const next = readings[i + 1]
    if (next === undefined || next.at - at > 2 * hold) continue
    const parts = Math.max(1, Math.ceil((next.at - at) / (30 * minute)))
    for (let part = 1; part < parts; part++)
      bounds.add(at + ((next.at - at) * part) / parts)
  }
  const knots = [...bounds].sort((one, other) => one - other)
  const total = { low: 0, high: 0 }
  for (const [i, start] of knots.entries()) {
    const end = knots[i + 1]
    if (end === undefined || start < from || end > to) continue
    // Inside a stretch of half an hour the speed, not the air, is taken to run straight.
    const [one, other] = [at(start, end, start), at(start, end, end)]
    const length = (end - start) / minute
    total.low += ((one.low + other.low) / 2) * length
    total.high += ((one.high + other.high) / 2) * length
  }
  return total

  function at(start: number, end: number, moment: number): DryingSpeed {
    const middle = (start + end) / 2
    const before = readings.findLast((reading) => reading.at <= middle)
    const after = readings.find((reading) => reading.at > middle)
    const apart =
      before === undefined || after === undefined
        ? Infinity
        : after.at - before.at
    if (before !== undefined && after !== undefined && apart <= 2 * hold) {
      const parts = Math.max(1, Math.ceil(apart / (30 * minute)))
      const part = Math.floor(((middle - before.at) / apart) * parts)
      const edges = [part / parts, (part + 1) / parts]
      const [low = speed(before), high = speed(before)] = edges.map((share) =>
        speed({
          celsius: before.celsius + (after.celsius - before.celsius) * share,
          humidity:
            before.humidity + (after.humidity - before.humidity) * share,
        }),
      )
      const share = ((moment - before.at) / apart - part / parts) * parts
      return {
        low: low.low + (high.low - low.low) * share,
        high: low.high + (high.high - low.high) * share,
      }
    }
    if (before !== undefined && middle < before.at + hold) return speed(before)
    if (after !== undefined && middle > after.at - hold) return speed(after)
    return { low: 1, high: 1 }
  }

  function speed(air: { celsius: number; humidity: number }): DryingSpeed {
    return dryingSpeed(chemistry, air, reference)
  }
}
