import { wallClock } from '#core/time/zone'
import type { Instant } from '#core/units'

/** A moment in a calendar: it takes no time. */
export type CalendarMoment = {
  /** Unique in the world, and the same for the same thing however its time changes. */
  readonly uid: string
  readonly at: Instant
  readonly summary: string
  readonly description: string
  readonly url: string
  /** How long before it to be told, in whole minutes. */
  readonly alarmMinutesBefore?: number
}

/** A line is at most so many octets without its break (RFC 5545, section 3.1). */
const longestLine = 75

/**
 * A calendar in the form of RFC 5545, with lines folded and ended as it asks.
 *
 * @param name of the calendar, as a program for calendars shows it (RFC 7986)
 * @param writtenAt the DTSTAMP of all moments
 */
export function icalendar(
  name: string,
  moments: readonly CalendarMoment[],
  writtenAt: Instant,
): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Coatbook//Bench//EN',
    'CALSCALE:GREGORIAN',
    `NAME:${escaped(name)}`,
    'REFRESH-INTERVAL;VALUE=DURATION:PT15M',
    ...moments.flatMap((moment) => eventLines(moment, writtenAt)),
    'END:VCALENDAR',
  ]
  return lines.map((line) => `${folded(line)}\r\n`).join('')
}

function eventLines(
  moment: CalendarMoment,
  writtenAt: Instant,
): readonly string[] {
  const summary = escaped(moment.summary)
  return [
    'BEGIN:VEVENT',
    `UID:${escaped(moment.uid)}`,
    `DTSTAMP:${utcText(writtenAt)}`,
    `DTSTART:${utcText(moment.at)}`,
    `SUMMARY:${summary}`,
    `DESCRIPTION:${escaped(moment.description)}`,
    `URL:${moment.url}`,
    // It is a moment to act, not time that is taken up.
    'TRANSP:TRANSPARENT',
    ...(moment.alarmMinutesBefore === undefined
      ? []
      : [
          'BEGIN:VALARM',
          'ACTION:DISPLAY',
          `DESCRIPTION:${summary}`,
          `TRIGGER:-PT${moment.alarmMinutesBefore}M`,
          'END:VALARM',
        ]),
    'END:VEVENT',
  ]
}

/** A moment in UTC: `20261024T101000Z`. A started second counts as one, so that nothing is told early. */
function utcText(at: Instant): string {
  const clock = wallClock((Math.ceil(at / 1000) * 1000) as Instant, 'UTC')
  const two = (value: number) => String(value).padStart(2, '0')
  return `${String(clock.year).padStart(4, '0')}${two(clock.month)}${two(clock.day)}T${two(clock.hour)}${two(clock.minute)}${two(clock.second)}Z`
}

/** Text as a value (section 3.3.11); characters that no text may hold are left out. */
function escaped(text: string): string {
  return text
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll(/[\u0000-\u0009\u000B-\u001F\u007F]/g, ' ')
    .replaceAll('\\', '\\\\')
    .replaceAll(';', '\\;')
    .replaceAll(',', '\\,')
    .replaceAll('\n', '\\n')
}

/** A line broken before its 76th octet, never inside a character; the next begins with a space. */
function folded(line: string): string {
  let text = ''
  let octets = 0
  for (const character of line) {
    const size = octetsOf(character.codePointAt(0) ?? 0)
    if (octets + size > longestLine) {
      text += '\r\n '
      octets = 1
    }
    text += character
    octets += size
  }
  return text
}

/** How many octets a character takes in UTF-8 (RFC 3629, section 3). */
function octetsOf(codePoint: number): number {
  if (codePoint < 0x80) return 1
  if (codePoint < 0x800) return 2
  return codePoint < 0x10000 ? 3 : 4
}
