/*
 * The laws of the dry checks of a whole job. They follow from what a dry check is (elapsed time is a difference of
 * instants, dryness an integral, the label a floor) and hold whatever the job.
 */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { airCourse } from '#core/air/air-course'
import { dryingClocks, ranBetween } from '#core/drying/drying-clock'
import type { Journal } from '#core/journal/journal'
import { captureTime } from '#core/time/capture-time'
import { readTimeline } from '#core/timeline/read-timeline'
import { anyReadings, at, reading } from '../air/any-air'
import { anyChemistry, anyLabel, anyReference } from '../drying/any-coat'
import { journalOf, product } from './journal-of'

const anyJob = fc
  .record({
    chemistry: anyChemistry,
    label: anyLabel,
    readings: anyReadings,
    waits: fc.array(fc.integer({ min: 0, max: 6000 }), {
      minLength: 1,
      maxLength: 6,
    }),
  })
  .map(({ chemistry, label, readings, waits }): Journal => {
    let minutes = 0
    return journalOf({
      surfaces: { sideboard: ['body', 'top'] },
      products: [product('coat', chemistry, label)],
      air: readings,
      steps: [0, ...waits].map((wait, i) => {
        minutes += wait
        return {
          id: `coat ${i}`,
          kind: 'coat',
          productId: 'coat',
          on: { body: i + 1 },
          startedAt: at(minutes),
          finishedAt: at(minutes),
        }
      }),
    })
  })

const checksOn = (journal: Journal) =>
  readTimeline(journal).lanes.map((lane) =>
    lane.checks.map(({ from, to, verdict, required, reason }) => ({
      from,
      to,
      verdict,
      required,
      reason,
    })),
  )

test('no required wait is shorter than the label, nor any forecast', () => {
  fc.assert(
    fc.property(anyJob, (journal) => {
      const least = journal.products[0]?.label.recoatMinutes ?? NaN
      for (const lane of readTimeline(journal).lanes) {
        for (const check of lane.checks) {
          expect(check.required).toBeGreaterThanOrEqual(least)
          if (check.elapsed.high < least)
            expect(check.verdict).not.toBe('in-window')
        }
        const last = lane.steps.at(-1)?.finished?.latest
        const ready = lane.next?.readyAt
        if (last !== undefined && ready !== undefined)
          expect(ready.earliest - last).toBeGreaterThanOrEqual(least * 60_000)
      }
    }),
  )
})

test('what dries in a gap is what dries in its two parts', () => {
  fc.assert(
    fc.property(
      anyReadings,
      anyChemistry,
      anyReference,
      fc.integer({ min: -3000, max: 20_000 }),
      fc.nat(5000),
      fc.nat(5000),
      (readings, chemistry, reference, from, first, second) => {
        const clock = dryingClocks(airCourse(readings))({
          chemistry,
          label: { reference },
        })
        for (const sum of [clock.low, clock.high]) {
          const whole = ranBetween(sum, at(from), at(from + first + second))
          const parts =
            ranBetween(sum, at(from), at(from + first)) +
            ranBetween(sum, at(from + first), at(from + first + second))
          expect(parts).toBeCloseTo(whole, 6)
        }
      },
    ),
  )
})

test('a reading that only repeats what the air did anyway changes no verdict', () => {
  fc.assert(
    fc.property(anyJob, fc.integer({ min: 1, max: 35 }), (journal, celsius) => {
      const steady = [0, 1, 2, 3, 4].map((i) =>
        reading(i * 600 - 600, celsius, 60),
      )
      const more = steady.flatMap((one, i) =>
        i === 0 ? [one] : [reading(i * 600 - 900, celsius, 60), one],
      )
      const verdicts = (air: Journal['air']) =>
        checksOn({ ...journal, air }).map((lane) =>
          lane.map((check) => check.verdict),
        )
      expect(verdicts(more)).toEqual(verdicts(steady))
    }),
  )
})

test('work on one surface changes nothing that is said of another', () => {
  fc.assert(
    fc.property(
      anyJob,
      fc.integer({ min: -100, max: 9000 }),
      (journal, minutes) => {
        const [body] = checksOn(journal)
        const more: Journal = {
          ...journal,
          steps: [
            ...journal.steps,
            {
              id: 'other',
              kind: 'coat',
              productId: 'coat',
              surfaces: [{ surfaceId: 'top', coat: 1 }],
              photoIds: [],
              startedAt: at(minutes),
              createdAt: at(0),
            },
          ],
        }
        expect(checksOn(more)[0]).toEqual(body)
      },
    ),
  )
})

test('the order in which steps were written down changes no verdict', () => {
  fc.assert(
    fc.property(anyJob, (journal) => {
      fc.pre(
        new Set(journal.steps.map((step) => step.startedAt)).size ===
          journal.steps.length,
      )
      expect(
        checksOn({ ...journal, steps: journal.steps.toReversed() }),
      ).toEqual(checksOn(journal))
    }),
  )
})

test('a phone that shows its time in another zone changes no verdict', () => {
  fc.assert(
    fc.property(
      anyJob,
      fc.array(fc.integer({ min: -48, max: 56 }), {
        minLength: 7,
        maxLength: 7,
      }),
      (journal, quarters) => {
        const photographed = (offsets: readonly number[]): Journal => ({
          ...journal,
          photos: journal.steps.map((step, i) => ({
            id: `photo ${i}`,
            sha256: '0'.repeat(64),
            fileName: 'photo.jpg',
            width: 4000,
            height: 3000,
            role: 'progress',
            surfaceIds: ['body'],
            ...shown(step.startedAt ?? 0, offsets[i] ?? 0),
          })),
          steps: journal.steps.map((step, i) => ({
            id: step.id,
            kind: step.kind,
            surfaces: step.surfaces,
            createdAt: step.createdAt,
            ...(step.productId !== undefined && { productId: step.productId }),
            photoIds: [`photo ${i}`],
          })),
        })
        const zoned = photographed(quarters.map((quarter) => quarter * 15))
        const home = photographed(quarters.map(() => 0))
        expect(checksOn(zoned)).toEqual(checksOn(home))
      },
    ),
    { numRuns: 40 },
  )
})

/** A photo at an instant by a phone that writes its local time with so many minutes of offset. */
function shown(instant: number, offsetMinutes: number) {
  const two = (value: number) => String(value).padStart(2, '0')
  const size = Math.abs(offsetMinutes)
  const { taken, basis, warnings } = captureTime({
    local: new Date(instant + offsetMinutes * 60_000)
      .toISOString()
      .slice(0, -1),
    offset: `${offsetMinutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`,
    arrivedAt: at(10_000_000),
    zone: 'Europe/London',
  })
  return { taken, basis, warnings }
}

test('other units change the words and nothing that is judged', () => {
  fc.assert(
    fc.property(anyJob, (journal) => {
      const judged = (units: 'metric' | 'us') => {
        const { lanes, warnings } = readTimeline(journal, units)
        return {
          checks: lanes.flatMap((lane) =>
            lane.checks.map(
              ({ verdict, required, dryness, label, elapsed }) => ({
                verdict,
                required,
                dryness,
                label,
                elapsed,
              }),
            ),
          ),
          next: lanes.map(({ next }) => ({ ...next, reason: '' })),
          warnings: warnings.map(({ kind, stepId }) => ({ kind, stepId })),
        }
      }
      expect(judged('us')).toEqual(judged('metric'))
      const said = readTimeline(journal, 'us')
      const words = [
        ...said.warnings.map((warning) => warning.detail),
        ...said.lanes.flatMap(({ next, checks }) => [
          next?.reason ?? '',
          ...checks.flatMap((check) => [check.reason, check.advice]),
        ]),
      ].join(' ')
      expect(words).not.toMatch(/°C|m²| ml /)
    }),
  )
})
