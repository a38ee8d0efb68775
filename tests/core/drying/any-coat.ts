import fc from 'fast-check'
import { airCourse } from '#core/air/air-course'
import type { AirReading } from '#core/air/reading'
import { dryingClocks } from '#core/drying/drying-clock'
import type { StepTime } from '#core/drying/judge-gap'
import { type Label, chemistries } from '#core/shelf/product'
import { exactly, span } from '#core/time/span'
import { at } from '../air/any-air'

export const anyChemistry = fc.constantFrom(...chemistries)

export const anyReference = fc.record({
  celsius: fc.double({ min: 15, max: 30, noNaN: true }),
  humidity: fc.double({ min: 30, max: 70, noNaN: true }),
})

/** A label with one window, with or without an end. */
export const anyLabel: fc.Arbitrary<
  Label & { readonly recoatMinutes: number }
> = fc
  .record(
    {
      recoatMinutes: fc.integer({ min: 5, max: 3000 }),
      open: fc.integer({ min: 0, max: 10_000 }),
      reference: anyReference,
    },
    { requiredKeys: ['recoatMinutes'] },
  )
  .map(({ recoatMinutes, open, reference }) => ({
    recoatMinutes,
    ...(open !== undefined && { recoatByMinutes: recoatMinutes + open }),
    ...(reference !== undefined && { reference }),
  }))

/** A step that took no time, so many minutes after the start of all times. */
export const moment = (minutes: number): StepTime => ({
  started: exactly(at(minutes)),
  finished: exactly(at(minutes)),
})

/** A step from one moment to another. */
export const lasting = (from: number, to: number): StepTime => ({
  started: exactly(at(from)),
  finished: exactly(at(to)),
})

/** A step at a moment that is known only to lie between two others. */
export const sometime = (from: number, to: number): StepTime => ({
  started: span(at(from), at(from), at(to)),
  finished: span(at(from), at(from), at(to)),
})

/** The drying clocks in the air of these readings. */
export const clocksIn = (readings: readonly AirReading[]) =>
  dryingClocks(airCourse(readings))
