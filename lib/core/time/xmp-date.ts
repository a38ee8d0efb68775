import { exifLocal } from '#core/time/exif-local'
import { exifOffset } from '#core/time/exif-offset'

/** A wall-clock time and, where it was written, the offset that belongs to it. */
export type WrittenTime = {
  /** ISO 8601 without offset, to the minute, the second or a fraction of it. */
  readonly local: string
  readonly offset?: string
}

const shape =
  /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)(?::(\d\d)(?:\.(\d+))?)?(Z|[+-]\d\d:?\d\d)?$/

/**
 * The time that an XMP property holds; undefined when it has no time of day, or is impossible as `exifLocal` has it.
 *
 * @param text such as `2017-05-29T17:19:21.25-04:00`; the offset may be missing, which means that nobody knows it
 * Source: ISO 16684-1:2019 (XMP part 1), section 8.2.1.2 (Date).
 */
export function xmpDate(text: string): WrittenTime | undefined {
  const parts = shape.exec(text.trim())
  if (parts === null) return undefined
  const [, date = '', minutes = '', seconds, fraction, zone = ''] = parts
  const local = exifLocal(
    `${date.replaceAll('-', ':')} ${minutes}:${seconds ?? '00'}`,
    fraction,
  )
  if (local === undefined) return undefined
  const offset = zone.replace(/^([+-]\d\d)(\d\d)$/, '$1:$2')
  return {
    // Without seconds the text says that it is known to the minute.
    local: seconds === undefined ? local.slice(0, 16) : local,
    ...(exifOffset(offset) === undefined ? {} : { offset }),
  }
}
