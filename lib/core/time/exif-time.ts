import { exifLocal } from '#core/time/exif-local'
import { exifOffset } from '#core/time/exif-offset'
import type { WrittenTime } from '#core/time/xmp-date'

/**
 * The form of the standard, and what cameras and programs make of it: other marks in the date or behind it, blanks for
 * zeros, a zone behind it all.
 */
const shape =
  /^(\d{4})[:/.-] ?(\d\d?)[:/.-] ?(\d\d?)[ T:] *(\d\d?): ?(\d\d?)(?:: ?(\d\d?)(?:[.,](\d+))?)? *(Z|[+-]\d\d?:?\d\d)?$/

/**
 * The time that three Exif fields hold, read as leniently as nothing else can be meant; undefined when it is blank, zero
 * or impossible as `exifLocal` has it. An hour of 24 is impossible: some write it for midnight at the end of a day, some
 * for midnight at its beginning.
 *
 * @param date as in DateTimeOriginal, which should be `YYYY:MM:DD HH:MM:SS`
 * @param subSeconds as in SubSecTimeOriginal
 * @param offset as in OffsetTimeOriginal; wins over one that stands behind the date
 * Source: Exif 2.32 (CIPA DC-008-2019) section 4.6.5, tags 0x9003, 0x9291 and 0x9011.
 */
export function exifTime(
  date: string,
  subSeconds: string,
  offset: string,
): WrittenTime | undefined {
  const parts = shape.exec(clean(date))
  if (parts === null) return undefined
  const [, year = '', month, day, hour, minute, second, fraction, zone] = parts
  const local = exifLocal(
    `${year}:${two(month)}:${two(day)} ${two(hour)}:${two(minute)}:${two(second)}`,
    /\d/.test(subSeconds) ? subSeconds : fraction,
  )
  if (local === undefined) return undefined
  const written = [clean(offset), zone ?? ''].find(
    (text) => exifOffset(text) !== undefined,
  )
  return {
    // Without seconds the text says that it is known to the minute.
    local: second === undefined ? local.slice(0, 16) : local,
    ...(written === undefined ? {} : { offset: written }),
  }
}

function two(digits = '0'): string {
  return digits.padStart(2, '0')
}

/** Cameras fill their fields up with blanks and zero bytes. */
function clean(text: string): string {
  return text.replaceAll('\0', ' ').trim()
}
