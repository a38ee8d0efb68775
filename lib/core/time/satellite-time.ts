import { exifLocal } from '#core/time/exif-local'
import { readLocal } from '#core/time/zone'
import type { Instant } from '#core/units'
import { instant } from '#core/units'

/**
 * The instant of a satellite fix, or undefined when the camera wrote none that can be: blank, zero, before 1990.
 *
 * @param dateStamp as in GPSDateStamp, `YYYY:MM:DD`, in UTC
 * @param timeStamp as in GPSTimeStamp: hour, minute and second, the second with its fraction
 * Source: Exif 2.32 (CIPA DC-008-2019) section 4.6.6, tags 0x1D and 0x07.
 */
export function satelliteTime(
  dateStamp: string,
  timeStamp: readonly number[],
): Instant | undefined {
  const [hour = NaN, minute = NaN, second = NaN] = timeStamp
  if (
    ![hour, minute].every(Number.isInteger) ||
    !(second >= 0 && second < 60)
  ) {
    return undefined
  }
  const whole = [hour, minute, Math.floor(second)]
    .map((part) => String(part).padStart(2, '0'))
    .join(':')
  const local = exifLocal(`${dateStamp.replaceAll('\0', ' ').trim()} ${whole}`)
  if (local === undefined) return undefined
  // A thousandth is as fine as an instant gets; the rest of the fraction is noise.
  return instant(readLocal(local, 'UTC').at + Math.round((second % 1) * 1000))
}
