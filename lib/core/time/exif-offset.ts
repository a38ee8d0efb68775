const furthestMinutes = 14 * 60

/**
 * The offset from UTC that a camera wrote, in minutes east; undefined when it is blank or no zone on Earth has it.
 *
 * @param text as in OffsetTimeOriginal: `+01:00`, `-03:30` or `Z`; some programs write `+0100`, `+1:00` or `+01`
 * Source: Exif 2.32 (CIPA DC-008-2019) section 4.6.5, tag 0x9011; offsets reach 14 hours in the IANA time zone data.
 */
export function exifOffset(text: string): number | undefined {
  const clean = text.replaceAll('\0', ' ').trim()
  if (clean === 'Z') return 0
  const parts = /^([+-])(?:(\d\d):?(\d\d)?|(\d):(\d\d))$/.exec(clean)
  if (parts === null) return undefined
  const beyondHour = Number(parts[3] ?? parts[5] ?? 0)
  const minutes = Number(parts[2] ?? parts[4]) * 60 + beyondHour
  if (beyondHour > 59 || minutes > furthestMinutes) return undefined
  return parts[1] === '-' && minutes > 0 ? -minutes : minutes
}
