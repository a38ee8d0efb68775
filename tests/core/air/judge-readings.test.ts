import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { judgeReadings } from '#core/air/judge-readings'
import type { AirReading } from '#core/air/reading'
import { readTimeline } from '#core/timeline/read-timeline'
import { addMinutes } from '#core/units'
import { journalOf, product, utc } from '../timeline/journal-of'
import { at, reading } from './any-air'

/** A day of a logger in a workshop, a reading every ten minutes, never twice the same. */
const day = Array.from({ length: 144 }, (_, i) =>
  reading(i * 10, 20 + Math.sin(i / 30), 50 + 3 * Math.cos(i / 20)),
)
const kindsOf = (readings: readonly AirReading[]) =>
  judgeReadings(readings).map((fault) => fault.kind)
const changed = (place: number, celsius: number, humidity: number) =>
  day.map((one, i) => (i === place ? { ...one, celsius, humidity } : one))

describe('a logger that works', () => {
  test('gives nothing to doubt', () => {
    expect(judgeReadings(day)).toEqual([])
    expect(judgeReadings([])).toEqual([])
    expect(judgeReadings(day.slice(0, 1))).toEqual([])
  })

  test('may see the air change fast when a door opens', () => {
    const opened = day.map((one, i) =>
      i < 60 ? one : { ...one, celsius: one.celsius - 8 },
    )
    expect(kindsOf(opened)).toEqual([])
  })
})

describe('readings that are doubtful', () => {
  test('a gap of three hours in a reading every ten minutes', () => {
    const gappy = day.filter((_, i) => i < 50 || i >= 67)
    expect(judgeReadings(gappy)).toMatchObject([
      { kind: 'gap', from: at(490), to: at(670), detail: /3 h/ },
    ])
  })

  test('a gap that readings by hand, twice a day, do not have', () => {
    const byHand = Array.from({ length: 9 }, (_, i) =>
      reading(i * 720, 20 + i, 50),
    )
    expect(kindsOf(byHand)).toEqual([])
  })

  test.each([
    ['warm', 29, 50],
    ['damp', 20, 75],
  ])('one %s reading among its neighbours', (_, celsius, humidity) => {
    const spiked = changed(70, celsius, humidity)
    expect(judgeReadings(spiked)).toMatchObject([
      { kind: 'spike', from: at(690), to: at(710) },
    ])
  })

  test('the same values to the last digit for a night', () => {
    const hung = day.map((one, i) =>
      i < 30 || i > 110 ? one : { ...one, celsius: 20, humidity: 50 },
    )
    expect(judgeReadings(hung)).toMatchObject([
      { kind: 'stuck', from: at(300), to: at(1100), detail: /13 h 20 min/ },
    ])
  })

  test('not the same values for an hour', () => {
    const still = day.map((one, i) =>
      i < 30 || i > 36 ? one : { ...one, celsius: 20, humidity: 50 },
    )
    expect(kindsOf(still)).toEqual([])
  })
})

test('whatever the readings, every fault lies between two of them', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 2000 }), { maxLength: 60 }),
      fc.integer({ min: 0, max: 3 }),
      (apart, digits) => {
        let minutes = 0
        const readings = apart.map((step, i) => {
          minutes += step
          return reading(minutes, 20 + (i % 3) * digits * 4, 50)
        })
        const moments = new Set(readings.map((one) => one.at))
        for (const fault of judgeReadings(readings)) {
          expect(moments.has(fault.from) && moments.has(fault.to)).toBe(true)
          expect(fault.from).toBeLessThan(fault.to)
        }
      },
    ),
  )
})

describe('the timeline', () => {
  const enamel = product('enamel', 'waterborne-acrylic', { recoatMinutes: 60 })
  const started = utc('2026-10-24T09:00:00Z')
  const job = (air: readonly AirReading[]) =>
    journalOf({
      products: [enamel],
      air,
      steps: [
        {
          id: 'coat',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 1 },
          startedAt: started,
          finishedAt: addMinutes(started, 10),
        },
      ],
    })
  const kinds = (air: readonly AirReading[]) =>
    readTimeline(job(air)).warnings.map((warning) => warning.kind)

  test('says what is doubtful about the air in which its coats dried', () => {
    expect(kinds(day)).toEqual([])
    expect(kinds(day.filter((_, i) => i < 50 || i >= 67))).toEqual(['air-gap'])
    expect(kinds(changed(70, 31, 50))).toEqual(['air-spike'])
  })

  test('says it once, however often', () => {
    const twice = changed(70, 31, 50).map((one, i) =>
      i === 90 ? { ...one, celsius: 31 } : one,
    )
    const [warning, ...others] = readTimeline(job(twice)).warnings
    expect(others).toEqual([])
    expect(warning?.detail).toContain('one more like it')
    expect(warning?.during).toBeDefined()
  })

  test('keeps silent about air long before', () => {
    const before = changed(70, 31, 50).map((one) => ({
      ...one,
      at: addMinutes(one.at, -4 * 1440),
    }))
    expect(kinds([...before, ...day])).not.toContain('air-spike')
  })
})
