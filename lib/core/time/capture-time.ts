import type { TimeBasis } from '#core/journal/vocabulary'
import { exifOffset } from '#core/time/exif-offset'
import { type Span, exactly, span } from '#core/time/span'
import { readLocal, wallClock } from '#core/time/zone'
import {
  type Instant,
  instant,
  millisecondsPerMinute,
  millisecondsPerSecond,
  minutesPerDay,
} from '#core/units'

/** All that is known about when a photo was taken. */
export type CaptureEvidence = {
  /** What the camera's clock showed: ISO 8601 without offset, with the fraction the camera wrote (`exifLocal`). */
  readonly local?: string | undefined
  /** The offset that belongs to `local`, such as `+01:00`. */
  readonly offset?: string | undefined
  /** The record that `local` stands in; the camera's own unless it says otherwise. */
  readonly source?: TimeSource | undefined
  /** The last satellite fix: at the capture or some minutes before it. */
  readonly satelliteAt?: Instant | undefined
  /** The file's own date, as the browser told it. */
  readonly fileModifiedAt?: Instant | undefined
  readonly arrivedAt: Instant
  /** The workshop's IANA zone. */
  readonly zone: string
  readonly clock?: CameraClock | undefined
}

/**
 * Where a local time stands: Exif DateTimeOriginal, Exif DateTimeDigitized, XMP, IPTC data sets, or what one maker alone
 * writes.
 */
export const timeSources = [
  'exif',
  'digitized',
  'xmp',
  'iptc',
  'maker',
] as const
export type TimeSource = (typeof timeSources)[number]

/** How far a camera's clock is off. */
export type CameraClock = {
  /** Seconds to add to the camera's times. */
  readonly correctionSeconds: number
  /** The correction may be wrong by so much either way. */
  readonly uncertaintySeconds: number
}

export type CaptureTime = {
  readonly taken: Span
  readonly basis: TimeBasis
  /** Sentences for the owner; each begins with `captureTimeWarning`. */
  readonly warnings: readonly string[]
}

/** The beginning of every warning about a capture time, so that they can be told from others when a time is worked out again. */
export const captureTimeWarning = 'Capture time: '

/** A camera's clock may run ahead, and its zone may be one that is nearly a day ahead; a date later than this is nonsense. */
const aheadMilliseconds = minutesPerDay * millisecondsPerMinute
const furthestOffsetMinutes = 14 * 60
const offsetGridMinutes = 15
/** How old a satellite fix usually is at the most; common practice, no source. */
const staleFixMinutes = 10
/** 1990-01-01T00:00:00Z: no phone or digital camera took an earlier photo; common practice, no source. */
const earliestInstant = 631_152_000_000

/**
 * When a photo was taken, as a span, and what that rests on; the best evidence there is decides.
 *
 * `offset`: local time with its offset. `gps`: local time whose offset is its distance from satellite time, rounded to
 * a quarter of an hour and believed up to 14 hours, or satellite time alone. `zone`: local time read in the workshop's
 * zone; an hour that came twice or never widens the span. `file`, then `arrival`, are all that is left otherwise.
 *
 * A time in whole seconds is a span of that whole second, tenths a span of a tenth, and so on. A camera's clock is
 * corrected before its time is read in any zone, and its uncertainty widens the span both ways. A time more than a day
 * after the arrival is not believed.
 */
export function captureTime(evidence: CaptureEvidence): CaptureTime {
  const warnings: string[] = []
  const warn = (text: string) => warnings.push(captureTimeWarning + text)
  const found =
    fromLocal(evidence, warn) ??
    fromSatellite(evidence, warn) ??
    fromFile(evidence, warn) ??
    fromArrival(evidence, warn)
  return { ...found, warnings }
}

type Warn = (text: string) => void
type Found = { readonly taken: Span; readonly basis: TimeBasis }

function fromLocal(evidence: CaptureEvidence, warn: Warn): Found | undefined {
  if (evidence.local === undefined) return undefined
  const found = readCamera(evidence.local, evidence, warn)
  if (found.taken.earliest > evidence.arrivedAt + aheadMilliseconds) {
    warn(
      `the camera's clock says ${evidence.local.slice(0, 10)}, which has not come yet, so it was not used. Set the camera's date.`,
    )
    return undefined
  }
  if (found.taken.earliest > evidence.arrivedAt) {
    warn(
      "the camera's clock is ahead of this one. Check its time zone, or enter how far its clock is off.",
    )
  }
  const doubt = doubtOf[evidence.source ?? 'exif']
  if (doubt !== undefined) warn(doubt)
  if (/-01-01T00:0/.test(evidence.local)) {
    warn(
      'it looks like a clock that was never set. Type the time if you know it.',
    )
  }
  return found
}

const doubtOf: Record<TimeSource, string | undefined> = {
  exif: undefined,
  digitized: undefined,
  xmp: "the camera's own record is missing; this one (XMP) may be of a program that changed the picture. Type the time if you know better.",
  iptc: "the camera's own record is missing; this one (IPTC) is of a program that described the picture. Type the time if you know better.",
  maker:
    "the usual record is missing; this one is of the camera's maker. Type the time if you know better.",
}

function readCamera(
  local: string,
  evidence: CaptureEvidence,
  warn: Warn,
): Found {
  const wall = wallTime(local, evidence.clock)
  const offset = exifOffset(evidence.offset ?? '')
  if (offset !== undefined) {
    const at = wall.milliseconds - offset * millisecondsPerMinute
    warnOfDistance(at, evidence.satelliteAt, warn)
    return { taken: widened(at, at, wall), basis: 'offset' }
  }
  const fromFix = offsetFromFix(wall.milliseconds, evidence, warn)
  if (fromFix !== undefined) {
    const at = wall.milliseconds - fromFix * millisecondsPerMinute
    return { taken: widened(at, at, wall), basis: 'gps' }
  }
  return readInZone(wall, evidence.zone, warn)
}

/** A reading of the camera's clock, corrected: milliseconds as though its zone were UTC, and how finely they are known. */
type WallTime = {
  readonly milliseconds: number
  /** How much later than `milliseconds` it may have been, for want of digits. */
  readonly blurMilliseconds: number
  readonly uncertaintyMilliseconds: number
}

function wallTime(local: string, clock: CameraClock | undefined): WallTime {
  const [whole = '', digits = ''] = local.split('.')
  const correction = (clock?.correctionSeconds ?? 0) * millisecondsPerSecond
  return {
    milliseconds:
      readLocal(whole, 'UTC').at + Number(digits.padEnd(3, '0')) + correction,
    // "10" is known to the second: it may be 10.000 to 10.999. Some programs write no seconds at all.
    blurMilliseconds:
      whole.length === '2026-10-22T09:02'.length
        ? millisecondsPerMinute - 1
        : 10 ** (3 - digits.length) - 1,
    uncertaintyMilliseconds:
      (clock?.uncertaintySeconds ?? 0) * millisecondsPerSecond,
  }
}

function widened(first: number, last: number, wall: WallTime): Span {
  return span(
    instant(first - wall.uncertaintyMilliseconds),
    instant(first),
    instant(last + wall.blurMilliseconds + wall.uncertaintyMilliseconds),
  )
}

function offsetFromFix(
  wallMilliseconds: number,
  evidence: CaptureEvidence,
  warn: Warn,
): number | undefined {
  const fix = believedFix(evidence)
  if (fix === undefined) return undefined
  const distance = (wallMilliseconds - fix) / millisecondsPerMinute
  const offset = Math.round(distance / offsetGridMinutes) * offsetGridMinutes
  if (Math.abs(offset) > furthestOffsetMinutes) {
    warn(
      "satellite time and the camera's clock are further apart than any time zone; the workshop's zone was used.",
    )
    return undefined
  }
  return offset
}

function warnOfDistance(
  at: number,
  fix: Instant | undefined,
  warn: Warn,
): void {
  if (fix === undefined || fix < earliestInstant) return
  const apart = Math.round(Math.abs(at - fix) / millisecondsPerMinute)
  if (apart > staleFixMinutes && apart < minutesPerDay) {
    warn(
      `satellite time and the camera's clock are ${apart} minutes apart. Check the camera's clock.`,
    )
  }
}

function readInZone(wall: WallTime, zone: string, warn: Warn): Found {
  const seconds = Math.floor(wall.milliseconds / millisecondsPerSecond)
  const rest = wall.milliseconds - seconds * millisecondsPerSecond
  const read = readLocal(wallText(seconds), zone)
  if (read.latest > read.earliest) {
    const minutes = (read.latest - read.earliest) / millisecondsPerMinute
    warn(
      `the clocks changed about then, so it may be ${minutes} minutes later. Type the time if you know it.`,
    )
  }
  return {
    taken: widened(read.earliest + rest, read.latest + rest, wall),
    basis: 'zone',
  }
}

/** Seconds as though the zone were UTC, written as ISO 8601 without offset. */
function wallText(seconds: number): string {
  const wall = wallClock(instant(seconds * millisecondsPerSecond), 'UTC')
  const two = (value: number) => String(value).padStart(2, '0')
  return `${String(wall.year)}-${two(wall.month)}-${two(wall.day)}T${two(wall.hour)}:${two(wall.minute)}:${two(wall.second)}`
}

function believedFix(evidence: CaptureEvidence): Instant | undefined {
  const fix = evidence.satelliteAt
  if (fix === undefined || fix < earliestInstant) return undefined
  return fix > evidence.arrivedAt + aheadMilliseconds ? undefined : fix
}

function fromSatellite(
  evidence: CaptureEvidence,
  warn: Warn,
): Found | undefined {
  const fix = believedFix(evidence)
  if (fix === undefined) return undefined
  warn(
    'the camera wrote none; this is its last satellite fix, so it may be some minutes later.',
  )
  const latest = instant(fix + staleFixMinutes * millisecondsPerMinute)
  return { taken: span(fix, fix, latest), basis: 'gps' }
}

function fromFile(evidence: CaptureEvidence, warn: Warn): Found | undefined {
  const modified = evidence.fileModifiedAt
  if (modified === undefined || modified < earliestInstant) return undefined
  if (modified > evidence.arrivedAt + aheadMilliseconds) return undefined
  warn(
    "the photo does not say; this is the file's own date. Type the time if you know better.",
  )
  // A file cannot be newer than its arrival: the sender's clock is ahead.
  const at = instant(Math.min(modified, evidence.arrivedAt))
  return { taken: exactly(at), basis: 'file' }
}

function fromArrival(evidence: CaptureEvidence, warn: Warn): Found {
  warn(
    'neither the photo nor its file says; this is when it arrived. Type the time if you know it.',
  )
  return { taken: exactly(evidence.arrivedAt), basis: 'arrival' }
}
