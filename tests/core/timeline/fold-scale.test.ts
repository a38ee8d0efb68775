import fc from 'fast-check'
import { expect, test } from 'vitest'
import { foldScale, momentAt, placeAt } from '#core/timeline/fold-scale'
import { instant } from '#core/units'
import { utc } from './journal-of'

const start = utc('2026-10-01T00:00:00Z')
const minute = 60_000
const anyMoments = fc
  .array(fc.integer({ min: 0, max: 200 * 24 * 60 }), {
    minLength: 1,
    maxLength: 30,
  })
  .map((minutes) => minutes.map((one) => instant(start + one * minute)))
const anyMoment = fc
  .integer({ min: -5000, max: 205 * 24 * 60 })
  .map((one) => instant(start + one * minute))

test('a later moment is always drawn farther along', () => {
  fc.assert(
    fc.property(anyMoments, anyMoment, anyMoment, (moments, one, other) => {
      fc.pre(one < other)
      const scale = foldScale(moments)
      expect(placeAt(scale, one)).toBeLessThan(placeAt(scale, other))
    }),
  )
})

test('the moment drawn at the place of a moment is that moment, in a fold too', () => {
  fc.assert(
    fc.property(anyMoments, anyMoment, (moments, at) => {
      const scale = foldScale(moments)
      expect(Math.abs(momentAt(scale, placeAt(scale, at)) - at)).toBeLessThan(2)
    }),
  )
})

test('stretches join, and their lengths add up to the whole', () => {
  fc.assert(
    fc.property(anyMoments, (moments) => {
      const { stretches, length } = foldScale(moments)
      stretches.forEach((stretch, i) => {
        const next = stretches[i + 1]
        expect(next?.from ?? stretch.to).toBe(stretch.to)
        expect(stretch.place + stretch.length).toBeCloseTo(
          next?.place ?? length,
          6,
        )
      })
    }),
  )
})

test('no moment at which something happened is inside a fold', () => {
  fc.assert(
    fc.property(anyMoments, (moments) => {
      const folds = foldScale(moments).stretches.filter((one) => one.isFolded)
      for (const at of moments)
        expect(folds.some(({ from, to }) => from < at && at < to)).toBe(false)
    }),
  )
})

test('a coat left for a night is drawn to scale, a week without work is folded', () => {
  const night = foldScale([start, instant(start + 19 * 60 * minute)])
  expect(night.length).toBe(19 * 60)
  const week = foldScale([start, instant(start + 7 * 24 * 60 * minute)])
  expect(week.stretches.map((one) => one.isFolded)).toEqual([
    false,
    true,
    false,
  ])
  expect(week.length).toBeLessThan(24 * 60)
})

test('a job of one moment has room around it', () => {
  expect(foldScale([start]).length).toBe(60)
})

test('without a moment there is no scale', () => {
  expect(() => foldScale([])).toThrow(RangeError)
})
