import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  measuredOut,
  sameMeasure,
  shareOfPack,
  sumAmounts,
} from '#core/materials/amounts'
import {
  decimalText,
  fractionOf,
  roundHalfAway,
  sumOf,
  times,
} from '#core/money/fraction'
import { type Amount, type AmountUnit, amountUnits } from '#core/shelf/product'

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

// The worked job of pricing: 19.87 fl oz of a quart of 32 at 38.00 = 0.6209375 x 38 = 23.595625.
test('19.87 fl oz of a quart at 38.00 cost 23.60', () => {
  const share = shareOfPack(
    { value: 19.87, unit: 'us-fl-oz' },
    { value: 1, unit: 'us-qt' },
  )
  expect(share).toEqual(fractionOf(0.6209375))
  expect(roundHalfAway(times(fractionOf(0.6209375), fractionOf(3800)))).toBe(
    2360n,
  )
})

// NIST Handbook 44, appendix C (US gallon, pound, foot); UK Units of Measurement Regulations 1995 (imperial gallon).
test.each([
  [1, 'us-gal', 128, 'us-fl-oz'],
  [1, 'us-gal', 4, 'us-qt'],
  [1, 'us-gal', 8, 'us-pt'],
  [1, 'us-gal', 3.785411784, 'l'],
  [1, 'imp-gal', 160, 'imp-fl-oz'],
  [1, 'imp-gal', 8, 'imp-pt'],
  [1, 'imp-gal', 4.54609, 'l'],
  [1, 'lb', 16, 'oz'],
  [1, 'lb', 0.45359237, 'kg'],
  [1, 'yd', 3, 'ft'],
  [1, 'yd', 0.9144, 'm'],
] as const)('%d %s is %d %s exactly', (value, unit, same, other) => {
  expect(shareOfPack({ value, unit }, { value: same, unit: other })).toEqual(
    fractionOf(1),
  )
})

test('a fluid ounce is no ounce: without a density a weight has no volume', () => {
  expect(
    shareOfPack({ value: 1, unit: 'oz' }, { value: 1, unit: 'us-fl-oz' }),
  ).toBeUndefined()
})

test('250 g of a product of 1.25 kg a litre are a fifth of a litre', () => {
  expect(
    shareOfPack({ value: 250, unit: 'g' }, { value: 1, unit: 'l' }, 1.25),
  ).toEqual(fractionOf(0.2))
})

test('an empty pack has no shares', () => {
  expect(() =>
    shareOfPack({ value: 1, unit: 'l' }, { value: 0, unit: 'l' }),
  ).toThrow(RangeError)
})

// Typed from the sources above, apart from the table that is tested.
const inLitresGramsMetres: Readonly<Partial<Record<AmountUnit, number>>> = {
  ml: 0.001,
  'us-gal': 3.785411784,
  'us-qt': 0.946352946,
  'us-pt': 0.473176473,
  'us-fl-oz': 0.0295735295625,
  'imp-gal': 4.54609,
  'imp-pt': 0.56826125,
  'imp-fl-oz': 0.0284130625,
  kg: 1000,
  lb: 453.59237,
  oz: 28.349523125,
  yd: 0.9144,
  ft: 0.3048,
}

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
        const whole = (one: Amount) =>
          times(
            fractionOf(one.value),
            fractionOf(inLitresGramsMetres[one.unit] ?? 1),
          )
        // A sum is told to twelve decimals of its unit.
        const apart = sumOf([
          whole(sum),
          ...like.map((one) => times(fractionOf(-1), whole(one))),
        ])
        expect(decimalText(apart, 8)).toBe('0')
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

// NIST Handbook 44, appendix C: a US fluid ounce is 29.57 ml, a US quart of 32 is 0.9464 l.
test.each([
  [{ value: 29.57, unit: 'ml' }, 1],
  [{ value: 0.9464, unit: 'l' }, 32],
  [{ value: 150, unit: 'ml' }, 5],
  [{ value: 2, unit: 'ml' }, 0.5],
] as const)(
  '%o are measured out as %d fl oz in a US workshop',
  (amount, value) => {
    expect(measuredOut(amount, 'us')).toEqual({ value, unit: 'us-fl-oz' })
    expect(measuredOut(amount, 'metric')).toEqual(amount)
  },
)

test('what is no metric volume is measured out as it was', () => {
  const others = amountUnits.filter((unit) => unit !== 'ml' && unit !== 'l')
  for (const unit of others) {
    expect(measuredOut({ value: 3, unit }, 'us')).toEqual({ value: 3, unit })
  }
})
