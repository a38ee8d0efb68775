import 'server-only'
import type { BenchMoment } from '#core/bench/bench-moments'
import { type CalendarMoment, icalendar } from '#core/calendar/icalendar'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { readAhead } from '#services/bench/bench'
import { readWorkshop } from '#services/workshop/workshop'

/** What was longer ago is no news in a calendar. */
const daysKept = 30

/** When to be told before it comes: time enough to set up and coat, where a window closes. */
const alarmMinutesBefore: Readonly<
  Record<BenchMoment['kind'], number | undefined>
> = { ready: 0, 'recoat-by': 60, cured: undefined }

/**
 * The bench as a calendar (RFC 5545): when coats are ready, by when the next must be on, and when they are cured.
 *
 * @param origin of the workshop as the caller reaches it, such as `http://localhost:3000`
 */
export async function readBenchCalendar(
  at: Instant,
  origin: string,
): Promise<string> {
  const [{ moments }, { name }] = await Promise.all([
    readAhead(at),
    readWorkshop(),
  ])
  const since = addMinutes(at, -daysKept * minutesPerDay)
  return icalendar(
    `${name}: bench`,
    moments
      .filter((moment) => moment.at >= since)
      .map((moment) => toCalendar(moment, origin)),
    at,
  )
}

function toCalendar(moment: BenchMoment, origin: string): CalendarMoment {
  const { id, at, kind, entry, title } = moment
  const alarm = alarmMinutesBefore[kind]
  return {
    uid: `${id}@coatbook`,
    at,
    summary: title,
    description: [
      entry.job.title,
      ...(entry.product === undefined ? [] : [entry.product.name]),
      ...(entry.doubt !== undefined && !entry.reason.includes(entry.doubt)
        ? [entry.doubt]
        : []),
      entry.reason,
    ].join('\n'),
    url: `${origin}/jobs/${entry.job.id}/timeline`,
    ...(alarm !== undefined && { alarmMinutesBefore: alarm }),
  }
}
