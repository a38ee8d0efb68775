import fc from 'fast-check'
import { expect, test } from 'vitest'
import { sameMeasure, shareOfPack, sumAmounts } from '#core/materials/amounts'
import {
  fractionOf,
  over,
  roundHalfAway,
  sumOf,
  times,
} from '#core/money/fraction'
import { type Amount, amountUnits } from '#core/shelf/product'

test('a tenth and two tenths of a litre are three tenths', () => {
  expect(
    sumAmounts([
      { value: 0.1, unit: 'l' },
      { value: 0.2, unit: 'l' },
    ]),
  ).toEqual([{ value: 0.3, unit: 'l' }])
})

test('litres and millilitres add up in millilitres, cans stay cans', () => {
  expect(
    sumAmounts([
      { value: 450, unit: 'ml' },
      { value: 1, unit: 'can' },
      { value: 0.5, unit: 'l' },
      { value: 2, unit: 'can' },
    ]),
  ).toEqual([
    { value: 950, unit: 'ml' },
    { value: 3, unit: 'can' },
  ])
})

// NIST Handbook 44, appendix C: 1 US fl oz is 29.5735295625 ml, 32 to the quart of 946.352946 ml.
test('19.87 fl oz of a quart at 38.00 cost 23.60', () => {
  const share = shareOfPack([{ value: 19.87 * 29.5735295625, unit: 'ml' }], {
    value: 0.946352946,
    unit: 'l',
  })
  expect(roundHalfAway(times(share, fractionOf(3800)))).toBe(2360n)
})

test('an empty pack has no shares', () => {
  expect(() =>
    shareOfPack([{ value: 1, unit: 'l' }], { value: 0, unit: 'l' }),
  ).toThrow(RangeError)
})

const anyAmount: fc.Arbitrary<Amount> = fc.record({
  value: fc.integer({ min: 0, max: 100_000 }).map((value) => value / 100),
  unit: fc.constantFrom(...amountUnits),
})

test('no amount is lost or turned into another measure by adding up', () => {
  fc.assert(
    fc.property(fc.array(anyAmount, { maxLength: 12 }), (amounts) => {
      const sums = sumAmounts(amounts)
      for (const sum of sums) {
        const like = amounts.filter((one) => sameMeasure(one.unit, sum.unit))
        const litres = (one: Amount) =>
          over(
            fractionOf(one.value),
            fractionOf(one.unit === 'ml' || one.unit === 'g' ? 1000 : 1),
          )
        expect(litres(sum)).toEqual(sumOf(like.map(litres)))
      }
      expect(
        amounts.every(
          (one) =>
            sums.filter((sum) => sameMeasure(one.unit, sum.unit)).length === 1,
        ),
      ).toBe(true)
    }),
  )
})
