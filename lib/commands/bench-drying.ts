import type { AirReading } from '#core/air/reading'
import {
  dryingSpeed,
  referenceAir,
  standardAir,
} from '#core/drying/drying-speed'
import type { Journal, Step } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Chemistry, Product } from '#core/shelf/product'
import { readTimeline } from '#core/timeline/read-timeline'
import type { Timeline } from '#core/timeline/timeline'
import {
  type Instant,
  addMinutes,
  instant,
  minutesPerDay,
  minutesPerHour,
} from '#core/units'

const targetMilliseconds = 60
const surfaceCount = 400
const yearDays = 365
const readingEveryMinutes = 10
const warmUps = 12
const samples = 25
/** The plain loop is too slow for all surfaces: it checks every so many of them. */
const plainEvery = 20
const begin = instant(Date.UTC(2026, 0, 1))

type Work = {
  readonly kind: StepKind
  readonly product?: string
  readonly afterHours: number
}

/** What is done to a surface in one round of work: five coats of three chemistries, and what comes between. */
const round: readonly Work[] = [
  { kind: 'prime', product: 'primer', afterHours: 0 },
  { kind: 'coat', product: 'enamel', afterHours: 3 },
  { kind: 'sand', afterHours: 27 },
  { kind: 'coat', product: 'enamel', afterHours: 28 },
  { kind: 'seal', product: 'clear', afterHours: 52 },
]
const roundsPerYear = 5

const products: readonly Product[] = [
  product('primer', 'primer', 'shellac', 45),
  product('enamel', 'paint', 'waterborne-alkyd', 16 * minutesPerHour),
  product('clear', 'clear coat', 'waterborne-acrylic', 2 * minutesPerHour),
]

/**
 * How long the dry checks of 10,000 steps on 400 surfaces take with a year of readings every ten minutes: the whole
 * timeline with verdicts, numbers and forecasts. Beside it the time with a quarter of the surfaces, which shows
 * that it is linear, and a plain loop that walks the readings of every gap on one surface in twenty, which must find the same dryness. Prints a
 * line of JSON.
 */
export function benchDrying(): Promise<void> {
  const air = yearOfAir()
  const journal = journalWith(surfaceCount, air)
  const quarter = journalWith(surfaceCount / 4, air)
  const none = journalWith(0, air)
  for (let i = 0; i < warmUps; i += 1) readTimeline(journal)
  const times = {
    whole: time(journal),
    quarter: time(quarter),
    air: time(none),
    words: time(journal, readWords),
  }
  const start = performance.now()
  const plain = plainDryness(journal)
  const plainMilliseconds = performance.now() - start
  const timeline = readTimeline(journal)
  console.log(
    JSON.stringify({
      bench: 'drying',
      milliseconds: rounded(times.whole.median),
      target: targetMilliseconds,
      bestMilliseconds: rounded(times.whole.best),
      // The reasons are written only when they are read; a page reads those of one job.
      withAllWordsMilliseconds: rounded(times.words.median),
      steps: journal.steps.length,
      checks: timeline.lanes.flatMap((lane) => lane.checks).length,
      readings: air.length,
      airMilliseconds: rounded(times.air.median),
      // 4 where it is linear beyond what the air itself costs.
      timesAQuarter: rounded(
        (times.whole.median - times.air.median) /
          (times.quarter.median - times.air.median),
      ),
      plainMilliseconds: rounded(plainMilliseconds),
      farthestFromPlain: farthest(timeline, plain),
    }),
  )
  return Promise.resolve()
}

function product(
  id: string,
  category: Product['category'],
  chemistry: Chemistry,
  recoatMinutes: number,
): Product {
  return {
    id,
    name: id,
    category,
    chemistry,
    label: { recoatMinutes, reference: standardAir, cureDays: 21 },
  }
}

/** Warmer by day and in summer, damper by night, never the same twice. */
function yearOfAir(): readonly AirReading[] {
  const count = (yearDays * minutesPerDay) / readingEveryMinutes
  return Array.from({ length: count }, (_, i) => {
    const minute = i * readingEveryMinutes
    const day = Math.sin((2 * Math.PI * minute) / minutesPerDay)
    const season = Math.sin((2 * Math.PI * minute) / (yearDays * minutesPerDay))
    return {
      at: addMinutes(begin, minute),
      celsius: 18 + 3 * season + 2 * day + 0.5 * Math.sin(i),
      humidity: 55 + 8 * Math.cos(i / 900) - 4 * day,
    }
  })
}

function journalWith(surfaces: number, air: readonly AirReading[]): Journal {
  const names = Array.from({ length: surfaces }, (_, i) => `surface ${i}`)
  return {
    job: { id: 'job', title: 'A year of work', createdAt: begin },
    pieces: [
      {
        id: 'piece',
        name: 'piece',
        kind: 'cabinet',
        surfaces: names.map((name) => ({ id: name, name })),
      },
    ],
    photos: [],
    steps: names.flatMap((name, i) => stepsOn(name, i)),
    products,
    cameras: [],
    air,
  }
}

function stepsOn(surfaceId: string, place: number): readonly Step[] {
  const apart = (yearDays * minutesPerDay) / (roundsPerYear + 1)
  return Array.from({ length: roundsPerYear }, (_, turn) =>
    round.map((work, order): Step => {
      const at = addMinutes(
        begin,
        turn * apart + place * 97 + work.afterHours * minutesPerHour,
      )
      return {
        id: `${surfaceId} ${turn} ${order}`,
        kind: work.kind,
        ...(work.product !== undefined && { productId: work.product }),
        startedAt: at,
        finishedAt: addMinutes(at, 20),
        surfaces: [
          {
            surfaceId,
            ...(work.product !== undefined && {
              coat: turn * round.length + order + 1,
            }),
          },
        ],
        photoIds: [],
        createdAt: at,
      }
    }),
  ).flat()
}

function time(
  journal: Journal,
  andThen: (timeline: Timeline) => void = () => undefined,
): { readonly median: number; readonly best: number } {
  const taken = Array.from({ length: samples }, () => {
    const start = performance.now()
    andThen(readTimeline(journal))
    return performance.now() - start
  }).sort((one, other) => one - other)
  return {
    median: taken[Math.floor(samples / 2)] ?? NaN,
    best: taken[0] ?? NaN,
  }
}

/** Has every sentence of a timeline written. */
function readWords(timeline: Timeline): void {
  for (const { checks, next } of timeline.lanes) {
    if (next?.reason === '') throw new Error('a forecast says why')
    for (const { reason, advice } of checks) {
      if (reason === advice) throw new Error('a reason says what to do')
    }
  }
}

/** The dryness of every gap between two coats of a surface, the plain way: from reading to reading. */
function plainDryness({ steps, air }: Journal): ReadonlyMap<string, number> {
  const dryness = new Map<string, number>()
  const productOf = new Map(products.map((one) => [one.id, one]))
  for (const [i, earlier] of steps.entries()) {
    if (Math.floor(i / (roundsPerYear * round.length)) % plainEvery !== 0)
      continue
    const used = productOf.get(earlier.productId ?? '')
    const later = steps
      .slice(i + 1, i + 1 + round.length)
      .find((one) => one.productId !== undefined)
    const from = earlier.finishedAt
    const to = later?.startedAt
    if (
      used === undefined ||
      later === undefined ||
      from === undefined ||
      to === undefined ||
      earlier.surfaces[0]?.surfaceId !== later.surfaces[0]?.surfaceId
    )
      continue
    dryness.set(
      `${earlier.id} ${later.id}`,
      plainSum(air, used, from, to) / (used.label.recoatMinutes ?? NaN),
    )
  }
  return dryness
}

function plainSum(
  air: readonly AirReading[],
  used: Product,
  from: Instant,
  to: Instant,
): number {
  const first = Math.floor((from - begin) / 60_000 / readingEveryMinutes)
  const speed = (one: AirReading) =>
    dryingSpeed(used.chemistry, one, referenceAir(used.label)).low
  let sum = 0
  for (let i = first; ; i += 1) {
    const start = air[i]
    const end = air[i + 1]
    if (start === undefined || end === undefined || start.at >= to) return sum
    const one = Math.max(start.at, from)
    const other = Math.min(end.at, to)
    const length = end.at - start.at
    const middle = ((one + other) / 2 - start.at) / length
    // Straight between two readings, so its value in the middle is its mean.
    const mean = speed(start) + (speed(end) - speed(start)) * middle
    sum += (mean * (other - one)) / 60_000
  }
}

/** The greatest difference between the timeline's dryness and the plain one; NaN where one has a gap the other lacks. */
function farthest(
  timeline: Timeline,
  plain: ReadonlyMap<string, number>,
): number {
  const checks = timeline.lanes
    .filter((_, i) => i % plainEvery === 0)
    .flatMap((lane) => lane.checks)
    .filter((check) => check.purpose === 'recoat')
  if (checks.length !== plain.size) return NaN
  return checks.reduce((most, { from, to, dryness }) => {
    const expected = plain.get(`${from} ${to}`) ?? NaN
    return Math.max(most, Math.abs((dryness?.low ?? NaN) - expected))
  }, 0)
}

function rounded(value: number): number {
  return Number(value.toFixed(2))
}
