import { exifLocal } from '#core/time/exif-local'
import { readLocal } from '#core/time/zone'
import type { Instant } from '#core/units'
import { instant, millisecondsPerSecond } from '#core/units'

/**
 * The instant of a satellite fix, or undefined when the camera wrote none that can be: blank, zero, before 1990.
 *
 * @param dateStamp as in GPSDateStamp, `YYYY:MM:DD`, in UTC; other marks between its parts are read too
 * @param timeStamp as in GPSTimeStamp: hour, minute and second, each of which may have a fraction; 60 seconds are those
 *   of a leap second, or of a receiver that rounds up
 * Source: Exif 2.32 (CIPA DC-008-2019) section 4.6.6, tags 0x1D and 0x07.
 */
export function satelliteTime(
  dateStamp: string,
  timeStamp: readonly number[],
): Instant | undefined {
  const [hour = NaN, minute = NaN, second = NaN] = timeStamp
  const isTime =
    hour >= 0 &&
    hour < 24 &&
    minute >= 0 &&
    minute < 60 &&
    second >= 0 &&
    second < 61
  if (!isTime) return undefined
  const date = dateStamp.replaceAll('\0', ' ').trim().replaceAll(/[-/.]/g, ':')
  const day = exifLocal(`${date} 00:00:00`)
  if (day === undefined) return undefined
  // A thousandth is as fine as an instant gets; the rest of the fraction is noise.
  const sinceMidnight = Math.round(
    ((hour * 60 + minute) * 60 + second) * millisecondsPerSecond,
  )
  return instant(readLocal(day, 'UTC').at + sinceMidnight)
}
