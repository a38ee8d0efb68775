import { exifLocal } from '#core/time/exif-local'
import { exifOffset } from '#core/time/exif-offset'
import type { WrittenTime } from '#core/time/xmp-date'

const offsetGridMinutes = 15

/**
 * The time that IPTC data sets hold; undefined when the time of day is missing or it is impossible as `exifLocal` has
 * it. The form demands an offset, so programs that know none make one up: one that no zone has is left out.
 *
 * @param date Date Created as `2017-05-29` or `20170529`
 * @param time Time Created as `17:19:21-04:00` or `171921-0400`
 * Source: IPTC-NAA Information Interchange Model 4.2, data sets 2:55 and 2:60.
 */
export function iptcDate(date: string, time: string): WrittenTime | undefined {
  const day = /^(\d{4})-?(\d\d)-?(\d\d)$/.exec(date.trim())
  const clock = /^(\d\d):?(\d\d):?(\d\d)(?:([+-]\d\d):?(\d\d))?$/.exec(
    time.trim(),
  )
  if (day === null || clock === null) return undefined
  const local = exifLocal(
    `${day.slice(1).join(':')} ${clock.slice(1, 4).join(':')}`,
  )
  if (local === undefined) return undefined
  const offset = `${clock[4] ?? ''}:${clock[5] ?? ''}`
  const minutes = exifOffset(offset)
  return minutes === undefined || minutes % offsetGridMinutes !== 0
    ? { local }
    : { local, offset }
}
