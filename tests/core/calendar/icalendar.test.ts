/*
 * What we write is read back by ical.js, a parser of its own, and held against RFC 5545: lines of 75 octets at most
 * (section 3.1), text with its commas, semicolons, backslashes and breaks (3.3.11), moments in UTC (3.3.5).
 */
import fc from 'fast-check'
import ICAL from 'ical.js'
import { expect, test } from 'vitest'
import { type CalendarMoment, icalendar } from '#core/calendar/icalendar'
import { instant } from '#core/units'

const written = instant(Date.UTC(2026, 9, 24, 8))

const moment = (values: Partial<CalendarMoment> = {}): CalendarMoment => ({
  uid: 'ready.step.surface@coatbook',
  at: instant(Date.UTC(2026, 9, 25, 0, 30, 15)),
  summary: 'Sideboard, body and top: ready for the next coat',
  description: 'Label: 60 min at 25 °C and 50 %.\nIt was 14 °C.',
  url: 'http://localhost:3000/jobs/job/timeline',
  alarmMinutesBefore: 60,
  ...values,
})

const read = (text: string) => new ICAL.Component(ICAL.parse(text) as unknown[])

test('a moment is read back as it was', () => {
  const calendar = read(icalendar('Alder Yard: bench', [moment()], written))
  expect(calendar.getFirstPropertyValue('version')).toBe('2.0')
  expect(calendar.getFirstPropertyValue('name')).toBe('Alder Yard: bench')
  const [event] = calendar.getAllSubcomponents('vevent')
  const value = (name: string) =>
    String(event?.getFirstPropertyValue(name) ?? '')
  expect(value('uid')).toBe('ready.step.surface@coatbook')
  expect(value('dtstart')).toBe('2026-10-25T00:30:15Z')
  expect(value('dtstamp')).toBe('2026-10-24T08:00:00Z')
  expect(value('summary')).toBe(moment().summary)
  expect(value('description')).toBe(moment().description)
  const alarm = event?.getFirstSubcomponent('valarm')
  expect(String(alarm?.getFirstPropertyValue('trigger'))).toBe('-PT60M')
})

test('without an alarm there is none, and a calendar may be empty', () => {
  const { alarmMinutesBefore, ...silent } = moment()
  expect(alarmMinutesBefore).toBe(60)
  const [event] = read(
    icalendar('bench', [silent], written),
  ).getAllSubcomponents('vevent')
  expect(event?.getFirstSubcomponent('valarm')).toBeNull()
  expect(
    read(icalendar('bench', [], written)).getAllSubcomponents('vevent'),
  ).toEqual([])
})

test('whatever the words, they come back, and no line is too long or cut inside a character', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'grapheme', maxLength: 200 }),
      fc.string({ unit: 'binary', maxLength: 200 }),
      (summary, description) => {
        const text = icalendar(
          'bench',
          [moment({ summary, description })],
          written,
        )
        expect(text.endsWith('\r\n')).toBe(true)
        for (const line of text.split('\r\n')) {
          expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
          expect(line).not.toMatch(/[\r\n]/)
        }
        const [event] = read(text).getAllSubcomponents('vevent')
        const told = (value: string) =>
          value
            .replaceAll(/\r\n?/g, '\n')
            .replaceAll(/[\u0000-\u0009\u000B-\u001F\u007F]/g, ' ')
        expect(event?.getFirstPropertyValue('summary')).toBe(told(summary))
        expect(event?.getFirstPropertyValue('description')).toBe(
          told(description),
        )
      },
    ),
  )
})

test('a started second counts, so that nothing is told early', () => {
  const [event] = read(
    icalendar('bench', [moment({ at: instant(written + 1) })], written),
  ).getAllSubcomponents('vevent')
  expect(String(event?.getFirstPropertyValue('dtstart'))).toBe(
    '2026-10-24T08:00:01Z',
  )
})
