import { CsvError, parse } from 'csv-parse/sync'
import { type Result, ok, refused } from '#core/result'
import { readLocal } from '#core/time/zone'
import { type Instant, instant, millisecondsPerSecond } from '#core/units'
import { type NewAirReading, newAirReading } from '#services/air/schema'

/** Loggers write up to this many lines about themselves before the header. */
const longestPreamble = 40

type Columns = {
  readonly header: readonly string[]
  readonly time: number
  /** Where the time of day has a column of its own. */
  readonly timeOfDay?: number
  readonly temperature: number
  readonly fahrenheit: boolean
  readonly humidity: number
}

type LoggerAir = {
  readonly readings: readonly NewAirReading[]
  readonly warnings: readonly string[]
}

/** Which comes first in a date such as 3/11/2026. */
export const dateOrders = ['day-first', 'month-first'] as const
export type DateOrder = (typeof dateOrders)[number]

/**
 * The readings in a file of a temperature and humidity logger.
 *
 * Columns are found by the common wordings of their headers; the temperature's must name °C or °F. Separated by
 * commas, semicolons or tabs; decimal point or comma. Times are ISO 8601, day and month with a four-digit year, or
 * seconds or milliseconds since 1970; without an offset they are read in the workshop's zone, and in an hour that the
 * clocks repeat by their order. What could be read in two ways is refused.
 *
 * Day and month are told apart by a date that fits only one way, by dots, or by the days following each other; where
 * none of these settles it, `order` does.
 *
 * @param zone IANA zone of the workshop
 * @param order what the owner says of dates such as 3/11/2026; it never overrules the file
 * @returns the readings, the oldest first, with warnings about lines that hold none; or why not
 */
export function readLoggerCsv(
  text: string,
  zone: string,
  order?: DateOrder,
): Result<LoggerAir> {
  const table = findTable(
    // A degree sign in an old code page is no UTF-8, and arrives as the sign for what cannot be read.
    text.replace(/^\uFEFF/, '').replaceAll('\uFFFD', '°'),
  )
  if (!table.ok) return table
  const { columns } = table.value
  const lines = table.value.rows.map((row) => readLine(row, columns))
  const reader = timeReader(
    lines.map((line) => line.time),
    zoneOf(columns.header[columns.time], zone),
    order,
  )
  if (!reader.ok) return reader
  const readings: NewAirReading[] = []
  let previous: Instant | undefined
  for (const { time, celsius, humidity } of oldestFirst(lines, reader.value)) {
    const at = reader.value(time, previous)
    if (at === undefined) continue
    previous = at
    const reading = newAirReading.safeParse({
      at: new Date(at).toISOString(),
      celsius,
      humidity,
    })
    if (reading.success) readings.push(reading.data)
  }
  const lost = lines.length - readings.length
  if (readings.length === 0) {
    return refuse(
      'No line of the file holds a time, a temperature and a humidity that can be read. Look at its first lines.',
    )
  }
  return ok({
    readings,
    warnings:
      lost === 0
        ? []
        : [
            `${lost} of ${lines.length} lines hold no reading and were left out.`,
          ],
  })
}

type Line = {
  readonly time: string
  readonly celsius: number | undefined
  readonly humidity: number | undefined
}

function readLine(row: readonly string[], columns: Columns): Line {
  const degrees = readNumber(row[columns.temperature])
  return {
    time: [row[columns.time], row[columns.timeOfDay ?? -1]]
      .filter((part) => part !== undefined)
      .join(' ')
      .trim(),
    celsius:
      columns.fahrenheit && degrees !== undefined
        ? ((degrees - 32) * 5) / 9
        : degrees,
    humidity: readNumber(row[columns.humidity]),
  }
}

/** Some loggers write the newest line first; only the order of time tells the moments of a repeated hour apart. */
function oldestFirst(
  lines: readonly Line[],
  read: TimeReader,
): readonly Line[] {
  const times = lines.flatMap((line) => read(line.time, undefined) ?? [])
  const [first, last] = [times[0], times.at(-1)]
  return first !== undefined && last !== undefined && first > last
    ? lines.toReversed()
    : lines
}

function refuse(detail: string) {
  return refused({ kind: 'invalid' as const, detail })
}

type Table = {
  readonly columns: Columns
  readonly rows: readonly (readonly string[])[]
}

function findTable(text: string): Result<Table> {
  const lines = text.split(/\r\n|\r|\n/)
  for (
    let first = 0;
    first < Math.min(lines.length, longestPreamble);
    first += 1
  ) {
    for (const delimiter of [';', '\t', ',']) {
      const header = split(lines[first] ?? '', delimiter)?.[0] ?? []
      if (!looksLikeHeader(header)) continue
      const columns = readColumns(header)
      if (!columns.ok) return columns
      const rows = split(lines.slice(first + 1).join('\n'), delimiter)
      return rows === undefined
        ? refuse('The quotes in the file do not match. Save it as CSV again.')
        : ok({ columns: columns.value, rows })
    }
  }
  return refuse(
    'No line of the file names a time, a temperature and a humidity. Give the columns a header such as: time,temperature (°C),humidity (%)',
  )
}

/** The cells of a text, without the space around them; undefined where its quotes do not match. */
function split(
  text: string,
  delimiter: string,
): readonly (readonly string[])[] | undefined {
  try {
    const rows = parse(text, {
      delimiter,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
    })
    return rows.map((row) => row.map((cell) => cell.trim()))
  } catch (error) {
    if (error instanceof CsvError) return undefined
    throw error
  }
}

const isTime = /\b(?:date|time|timestamp|datetime)\b/
const isTemperature = /\b(?:temp|temperature|celsius|fahrenheit)\b|^t$|^°?[cf]$/
const isHumidity = /\b(?:rh|r h|hum|humidity)\b/
const isOther =
  /\bdew|\bfrost|\bvpd\b|\bdeficit\b|\babs(?:olute)?\b|\bpressure\b|\bheat index\b|\bmin(?:imum)?\b|\bmax(?:imum)?\b/

/** A header's words alone: lower case, without units and punctuation. */
function wordsOf(header: string): string {
  return header
    .toLowerCase()
    .replace(/[([].*?[)\]]|,.*$/g, ' ')
    .replace(/[^a-z0-9°]+/g, ' ')
    .trim()
}

function looksLikeHeader(header: readonly string[]): boolean {
  const words = header.map(wordsOf)
  const has = (pattern: RegExp) => words.some((one) => pattern.test(one))
  return (
    header.length >= 3 && has(isTime) && has(isTemperature) && has(isHumidity)
  )
}

function readColumns(header: readonly string[]): Result<Columns> {
  const found = (pattern: RegExp) =>
    [...header.keys()].filter((index) => {
      const words = wordsOf(header[index] ?? '')
      return pattern.test(words) && !isOther.test(words)
    })
  const times = timeColumns(header, found(isTime))
  if (times === undefined) {
    return refuse(
      'The file has several columns of times. Keep the one that tells when each reading was taken, or one for the date and one for the time.',
    )
  }
  const temperature = temperatureColumn(header, found(isTemperature))
  if (!temperature.ok) return temperature
  const [humidity, ...more] = found(isHumidity)
  if (humidity === undefined || more.length > 0) {
    return refuse(
      `The file has ${more.length + (humidity === undefined ? 0 : 1)} columns of relative humidity. Keep the one that was in the workshop.`,
    )
  }
  return ok({ header, ...times, ...temperature.value, humidity })
}

function timeColumns(
  header: readonly string[],
  found: readonly number[],
): { readonly time: number; readonly timeOfDay?: number } | undefined {
  const [one, two, ...more] = found
  if (one === undefined || more.length > 0) return undefined
  if (two === undefined) return { time: one }
  const words = [one, two].map((index) => wordsOf(header[index] ?? ''))
  if (words[0] === 'date' && words[1] === 'time') {
    return { time: one, timeOfDay: two }
  }
  return words[0] === 'time' && words[1] === 'date'
    ? { time: two, timeOfDay: one }
    : undefined
}

type Unit = 'celsius' | 'fahrenheit' | undefined

/** The unit that a header names: °C, [C], (F), _F, degrees Celsius. */
function unitOf(header: string): Unit {
  const text = header.toLowerCase().replaceAll('º', '°')
  const celsius = /°\s*c\b|celsius|[([_ ,/]\s*(?:deg\s*)?c\s*[)\]]?$|^c$/.test(
    text,
  )
  const fahrenheit =
    /°\s*f\b|fahrenheit|[([_ ,/]\s*(?:deg\s*)?f\s*[)\]]?$|^f$/.test(text)
  if (celsius === fahrenheit) return undefined
  return celsius ? 'celsius' : 'fahrenheit'
}

function temperatureColumn(
  header: readonly string[],
  found: readonly number[],
): Result<{ readonly temperature: number; readonly fahrenheit: boolean }> {
  const inUnit = (unit: Unit) =>
    found.filter((index) => unitOf(header[index] ?? '') === unit)
  const unnamed = inUnit(undefined)
  if (unnamed.length > 0) {
    return refuse(
      `The column "${header[unnamed[0] ?? 0] ?? ''}" does not say whether it is in °C or in °F. Name it in the header, such as: temperature (°C)`,
    )
  }
  // A logger that writes both writes one measure twice.
  const [celsius, anotherCelsius] = inUnit('celsius')
  const [fahrenheit, anotherFahrenheit] = inUnit('fahrenheit')
  if (anotherCelsius !== undefined || anotherFahrenheit !== undefined) {
    return refuse(
      'The file has several columns of temperature. Keep the one that was in the workshop.',
    )
  }
  if (celsius !== undefined) {
    return ok({ temperature: celsius, fahrenheit: false })
  }
  return fahrenheit === undefined
    ? refuse('The file has no column of the air’s temperature.')
    : ok({ temperature: fahrenheit, fahrenheit: true })
}

function readNumber(text: string | undefined): number | undefined {
  const match = /^([+-]?\d+(?:[.,]\d+)?)\s*(?:°?\s*[cf]|%(?:\s*rh)?)?$/i.exec(
    (text ?? '').replace('−', '-'),
  )
  return match?.[1] === undefined
    ? undefined
    : Number(match[1].replace(',', '.'))
}

/** The zone of a column of times: a header may name UTC, GMT or an offset. */
function zoneOf(header: string | undefined, zone: string): string {
  const match = /\b(?:utc|gmt)\b\s*([+-]\d\d):?(\d\d)?/i.exec(header ?? '')
  if (match?.[1] !== undefined) return `${match[1]}:${match[2] ?? '00'}`
  return /\b(?:utc|gmt)\b/i.test(header ?? '') ? 'UTC' : zone
}

type TimeReader = (
  text: string,
  previous: Instant | undefined,
) => Instant | undefined

const iso =
  /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]+(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?)\s*([ap]\.?m\.?)?\s*(Z|[+-]\d\d:?\d\d)?)?$/i
const dayOrMonthFirst =
  /^(\d{1,2})([-/.])(\d{1,2})[-/.](\d{4})[T, ]+(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?)\s*([ap]\.?m\.?)?$/i

function timeReader(
  times: readonly string[],
  zone: string,
  told: DateOrder | undefined,
): Result<TimeReader> {
  const order = dayAndMonth(times, told)
  if (!order.ok) return order
  return ok((text, previous) => {
    if (/^\d{10}$/.test(text))
      return instant(Number(text) * millisecondsPerSecond)
    if (/^\d{13}$/.test(text)) return instant(Number(text))
    const local = iso.exec(text)
    if (local !== null) {
      const [, year = '', month = '', day = '', clock, half, offset] = local
      if (clock === undefined) return undefined
      const wall = wallTime(year, month, day, clock, half)
      return offset === undefined
        ? inZone(wall, zone, previous)
        : parsed(`${wall ?? ''}${withColon(offset)}`)
    }
    const other = dayOrMonthFirst.exec(text)
    if (other === null) return undefined
    const [, one = '', , two = '', year = '', clock = '', half] = other
    const [day, month] = order.value === 'day-first' ? [one, two] : [two, one]
    return inZone(wallTime(year, month, day, clock, half), zone, previous)
  })
}

/** Which comes first in dates like 3/11/2026, by the file itself, or else as told. */
function dayAndMonth(
  times: readonly string[],
  told: DateOrder | undefined,
): Result<DateOrder> {
  let undecided: string | undefined
  let day = false
  let month = false
  for (const text of times) {
    const match = dayOrMonthFirst.exec(text)
    if (match === null) continue
    // With dots the day comes first wherever dates are written so; common practice, no source.
    if (match[2] === '.' || Number(match[1]) > 12) day = true
    else if (Number(match[3]) > 12) month = true
    else undecided ??= text
  }
  if (day && month) {
    return refuse(
      'Some dates of the file have the day first and some the month. Write them as 2026-10-24.',
    )
  }
  if (month) return ok('month-first')
  if (day || undecided === undefined) return ok('day-first')
  const order = orderByDays(times) ?? told
  return order === undefined
    ? refused({
        kind: 'invalid',
        detail: `The date in "${undecided}" may have the day or the month first. Say which with order, ${dateOrders.join(' or ')}, or write dates as 2026-10-24.`,
        field: 'order',
      })
    : ok(order)
}

const millisecondsPerDay = 86_400_000
/** Dates that follow each other by no more than this are a logger's; ones that jump by more are misread. Common practice, no source. */
const longestDaysApart = 2
const shortestJumpDays = 20

/** The order in which a file's days follow each other while in the other they leap from month to month. */
function orderByDays(times: readonly string[]): DateOrder | undefined {
  const leap = (order: DateOrder): number => {
    let most = 0
    let before: number | undefined
    for (const text of times) {
      const match = dayOrMonthFirst.exec(text)
      if (match === null) continue
      const [one, two] = [Number(match[1]), Number(match[3])]
      const [date, month] = order === 'day-first' ? [one, two] : [two, one]
      const at = Date.UTC(Number(match[4]), month - 1, date)
      if (before !== undefined) most = Math.max(most, Math.abs(at - before))
      before = at
    }
    return most / millisecondsPerDay
  }
  const [byDay, byMonth] = [leap('day-first'), leap('month-first')]
  if (byDay <= longestDaysApart && byMonth >= shortestJumpDays)
    return 'day-first'
  return byMonth <= longestDaysApart && byDay >= shortestJumpDays
    ? 'month-first'
    : undefined
}

function wallTime(
  year: string,
  month: string,
  day: string,
  clock: string,
  half: string | undefined,
): string | undefined {
  const [hour = '', minute = '', second = '00'] = clock
    .replace(',', '.')
    .split(':')
  const hours = half === undefined ? Number(hour) : hoursOf(Number(hour), half)
  if (hours === undefined) return undefined
  const two = (value: string | number) => String(value).padStart(2, '0')
  return `${year}-${two(month)}-${two(day)}T${two(hours)}:${minute}:${second}`
}

function hoursOf(hour: number, half: string): number | undefined {
  if (hour < 1 || hour > 12) return undefined
  return (hour % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0)
}

function withColon(offset: string): string {
  return /^[+-]\d{4}$/.test(offset)
    ? `${offset.slice(0, 3)}:${offset.slice(3)}`
    : offset.toUpperCase()
}

function parsed(text: string): Instant | undefined {
  const milliseconds = Date.parse(text)
  return Number.isFinite(milliseconds) ? instant(milliseconds) : undefined
}

/** In an hour that the clocks repeat, a reading is the first of its two moments that comes after the one before. */
function inZone(
  wall: string | undefined,
  zone: string,
  previous: Instant | undefined,
): Instant | undefined {
  if (wall === undefined) return undefined
  try {
    const { earliest, latest } = readLocal(wall, zone)
    return previous === undefined || earliest > previous ? earliest : latest
  } catch {
    // No such date or time: the line is left out, and counted.
    return undefined
  }
}
