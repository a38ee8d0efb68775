const earliestYear = 1990
const shape = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)$/
const daysInMonth = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

/**
 * The wall-clock time that a camera wrote, as ISO 8601 without offset: `2026-10-22T09:02:10.25`.
 *
 * The fraction has the digits the camera wrote, so the text says how finely the time is known; up to three are kept.
 * A blank, zero or impossible date is undefined, and so is one before 1990: no phone or digital camera took it. A leap
 * second is read as the one before it, as instants here have none.
 *
 * @param text as in DateTimeOriginal, `YYYY:MM:DD HH:MM:SS`
 * @param subSeconds as in SubSecTimeOriginal: the digits behind the decimal point ("05" is 0.05 s)
 * Source: Exif 2.32 (CIPA DC-008-2019) section 4.6.5, tags 0x9003 and 0x9291; the bound of 1990 is common practice,
 * no source.
 */
export function exifLocal(
  text: string,
  subSeconds?: string,
): string | undefined {
  const parts = shape.exec(trimmed(text))?.slice(1).map(Number)
  if (parts === undefined) return undefined
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = parts
  if (year < earliestYear || hour > 23 || minute > 59 || second > 60) {
    return undefined
  }
  if (day < 1 || day > lengthOfMonth(year, month)) return undefined
  const fraction = /^\d+$/.exec(trimmed(subSeconds ?? ''))?.[0].slice(0, 3)
  const date = `${String(year)}-${two(month)}-${two(day)}`
  const time = `${two(hour)}:${two(minute)}:${two(Math.min(second, 59))}`
  return `${date}T${time}${fraction === undefined ? '' : `.${fraction}`}`
}

function lengthOfMonth(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  return month === 2 && !leap ? 28 : (daysInMonth[month - 1] ?? 0)
}

function two(value: number): string {
  return String(value).padStart(2, '0')
}

/** Cameras fill their fields up with blanks and zero bytes. */
function trimmed(text: string): string {
  return text.replaceAll('\0', ' ').trim()
}
