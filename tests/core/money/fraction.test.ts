import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  decimalText,
  fractionOf,
  over,
  roundHalfAway,
  sumOf,
  times,
} from '#core/money/fraction'

const hundred = fractionOf(100)
const cents = (value: number) => times(fractionOf(value), hundred)

// The trade's worked job: common practice, no source; the figures are those of its own arithmetic,
// done by hand to the cent, with 10 % fees and 0.30 fixed.
test.each([
  ['24 miles at 0.725', times(cents(0.725), fractionOf(24)), 1740n],
  [
    '19.87 fl oz of a 32 fl oz quart at 38.00',
    over(times(cents(38), fractionOf(19.87)), fractionOf(32)),
    2360n,
  ],
  [
    '4 discs at 0.65 and tape at 1.65',
    sumOf([times(cents(0.65), fractionOf(4)), cents(1.65)]),
    425n,
  ],
  ['break-even', over(cents(351.55), fractionOf(0.9)), 39061n],
  ['a fifth margin', over(cents(351.55), fractionOf(0.7)), 50221n],
  ['half mark-up', over(cents(527.175), fractionOf(0.9)), 58575n],
  ['15 % off 502.21', times(cents(502.21), fractionOf(0.85)), 42688n],
])('%s comes out to the cent', (_what, value, minor) => {
  expect(roundHalfAway(value)).toBe(minor)
})

test.each([
  [0.5, 1n],
  [1.5, 2n],
  [2.5, 3n],
  [-0.5, -1n],
  [-2.5, -3n],
  [0.49999999999999994, 0n],
  [1e21, 1000000000000000000000n],
  [1.5e-7, 0n],
])('%f rounds half away from zero', (value, whole) => {
  expect(roundHalfAway(fractionOf(value))).toBe(whole)
})

test('a tenth and two tenths are three tenths', () => {
  expect(decimalText(sumOf([fractionOf(0.1), fractionOf(0.2)]), 6)).toBe('0.3')
})

test.each([
  [12.5, 3, '12.5'],
  [-0.04, 1, '0'],
  [-0.06, 1, '-0.1'],
  [7, 0, '7'],
  [1000, 2, '1000'],
])('%f to %i decimals is %s', (value, decimals, text) => {
  expect(decimalText(fractionOf(value), decimals)).toBe(text)
})

test.each([NaN, Infinity, -Infinity])('%f is no fraction', (value) => {
  expect(() => fractionOf(value)).toThrow(RangeError)
})

test('dividing by nothing is refused', () => {
  expect(() => over(fractionOf(1), fractionOf(0))).toThrow(RangeError)
})

test('sums do not depend on order, and dividing undoes multiplying', () => {
  const number = fc.double({ noNaN: true, noDefaultInfinity: true })
  fc.assert(
    fc.property(fc.array(number, { maxLength: 6 }), number, (values, other) => {
      const terms = values.map(fractionOf)
      expect(sumOf(terms.toReversed())).toEqual(sumOf(terms))
      fc.pre(other !== 0)
      const factor = fractionOf(other)
      for (const term of terms) {
        expect(over(times(term, factor), factor)).toEqual(term)
      }
    }),
  )
})

test('a number written in decimal reads back as itself', () => {
  fc.assert(
    fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
      expect(Number(decimalText(fractionOf(value), 400))).toBe(
        value === 0 ? 0 : value,
      )
    }),
  )
})
