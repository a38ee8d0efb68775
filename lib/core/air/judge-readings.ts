import type { AirReading } from '#core/air/reading'
import { temperatureWords } from '#core/measures/temperature'
import type { Units } from '#core/measures/units-of-measure'
import { lengthOfTime } from '#core/time/length-of-time'
import {
  type Instant,
  millisecondsPerMinute,
  minutesPerHour,
} from '#core/units'

/** Something about readings that makes them doubtful between two moments. */
export type ReadingFault = {
  readonly kind: 'gap' | 'spike' | 'stuck'
  readonly from: Instant
  readonly to: Instant
  /** What is wrong, without its time, as a sentence for the owner. */
  readonly detail: string
}

// All of these are common practice, no source.
/** A gap is this many times the usual time between readings, and this long at least. */
const gapRatio = 6
const shortestGapMinutes = 2 * minutesPerHour
/** A single reading this far from both of its neighbours is a spike, when they are close in time and alike. */
const spikeCelsius = 5
const spikeHumidity = 15
const longestSpikeMinutes = 2 * minutesPerHour
/** The same to the last digit for this long, with readings close together, is a sensor that hangs. */
const stuckMinutes = 12 * minutesPerHour
const leastStuckReadings = 12
/** Spacing is told from so many readings spread over all. */
const spacingSamples = 101

/**
 * What is doubtful about readings: long gaps, single spikes, a sensor that gives the same values for half a day.
 *
 * They are not changed and not left out; the owner decides. Readings taken by hand, hours apart, have no gaps that count
 * until they are far longer than usual.
 *
 * @param readings in order of time
 * @param units what its sentences are written in
 * @returns in order of time
 */
export function judgeReadings(
  readings: readonly AirReading[],
  units: Units = 'metric',
): readonly ReadingFault[] {
  const faults: ReadingFault[] = []
  const spacing = usualSpacing(readings)
  const longest = Math.max(
    gapRatio * spacing,
    shortestGapMinutes * millisecondsPerMinute,
  )
  let same = 0
  for (let i = 1; i <= readings.length; i++) {
    const before = readings[i - 1]
    const reading = readings[i]
    if (before === undefined) continue
    const isSame =
      reading !== undefined &&
      reading.celsius === before.celsius &&
      reading.humidity === before.humidity &&
      reading.at - before.at <= longestSpikeMinutes * millisecondsPerMinute
    if (!isSame) {
      const stuck = stuckFrom(readings[same], before, i - same, units)
      if (stuck !== undefined) faults.push(stuck)
      same = i
    }
    if (reading === undefined) break
    if (reading.at - before.at > longest)
      faults.push(gapBetween(before, reading))
    const after = readings[i + 1]
    if (after !== undefined && isSpike(before, reading, after))
      faults.push(spikeAt(before, reading, after, units))
  }
  return faults.sort((one, other) => one.from - other.from)
}

/** The usual time between readings in milliseconds: the median of some of them. */
function usualSpacing(readings: readonly AirReading[]): number {
  const count = Math.min(spacingSamples, readings.length - 1)
  const apart: number[] = []
  for (let i = 0; i < count; i++) {
    const place = Math.floor((i * (readings.length - 1)) / count)
    const one = readings[place]
    const other = readings[place + 1]
    if (one !== undefined && other !== undefined) apart.push(other.at - one.at)
  }
  return apart.sort((a, b) => a - b)[apart.length >> 1] ?? Infinity
}

function gapBetween(before: AirReading, after: AirReading): ReadingFault {
  const length = (after.at - before.at) / millisecondsPerMinute
  return {
    kind: 'gap',
    from: before.at,
    to: after.at,
    detail: `There are no readings of the air for ${lengthOfTime(length)}. What it did in between is a guess.`,
  }
}

function isSpike(
  before: AirReading,
  reading: AirReading,
  after: AirReading,
): boolean {
  if (after.at - before.at > 2 * longestSpikeMinutes * millisecondsPerMinute)
    return false
  return (
    stands(before.celsius, reading.celsius, after.celsius, spikeCelsius) ||
    stands(before.humidity, reading.humidity, after.humidity, spikeHumidity)
  )
}

/** Whether a value stands out on one side of two that are alike. */
function stands(
  before: number,
  value: number,
  after: number,
  least: number,
): boolean {
  const rise = value - before
  const fall = value - after
  return (
    rise * fall > 0 &&
    Math.min(Math.abs(rise), Math.abs(fall)) >= least &&
    Math.abs(after - before) <= Math.min(Math.abs(rise), Math.abs(fall)) / 2
  )
}

function spikeAt(
  before: AirReading,
  reading: AirReading,
  after: AirReading,
  units: Units,
): ReadingFault {
  const shown = (one: AirReading) => airWords(one, units)
  return {
    kind: 'spike',
    from: before.at,
    to: after.at,
    detail: `One reading says ${shown(reading)} between ${shown(before)} and ${shown(after)}. A hand, a lamp or the sun on the sensor does that.`,
  }
}

function stuckFrom(
  first: AirReading | undefined,
  last: AirReading,
  count: number,
  units: Units,
): ReadingFault | undefined {
  if (first === undefined || count < leastStuckReadings) return undefined
  const length = (last.at - first.at) / millisecondsPerMinute
  return length < stuckMinutes
    ? undefined
    : {
        kind: 'stuck',
        from: first.at,
        to: last.at,
        detail: `The sensor says ${airWords(first, units)} for ${lengthOfTime(length)} without a change, ${count} times. Air is never that still: check its battery and its link.`,
      }
}

function airWords({ celsius, humidity }: AirReading, units: Units): string {
  return `${temperatureWords(celsius, units, 1)} and ${Math.round(humidity)} %`
}
