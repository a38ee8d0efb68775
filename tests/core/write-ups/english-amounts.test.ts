import { expect, test } from 'vitest'
import { surfaceAreas } from '#core/film/surface-area'
import { estimateAmount } from '#core/materials/estimate-amount'
import {
  amountText,
  estimateArithmetic,
  inHandyUnit,
} from '#core/write-ups/english-amounts'
import { piece, step } from './jobs.ts'

// NIST Handbook 44, appendix C: US quart 946.352946 ml, ounce 28.349523125 g; imperial pint 568.26125 ml.
test.each([
  [{ value: 1, unit: 'us-qt' }, '1 US qt (946 ml)'],
  [{ value: 0.5, unit: 'imp-pt' }, '0.5 imperial pt (284 ml)'],
  [{ value: 0.5, unit: 'roll' }, 'half a roll'],
  [{ value: 0.4, unit: 'can' }, '0.4 of a can'],
  [{ value: 99.25, unit: 'ml' }, '99.25 ml'],
  [{ value: 12, unit: 'oz' }, '12 oz (340 g)'],
  [{ value: 2, unit: 'yd' }, '2 yd (1.83 m)'],
  [{ value: 1, unit: 'can' }, '1 can'],
  [{ value: 4, unit: 'sheet' }, '4 sheets'],
] as const)('%o reads %s', (amount, text) => {
  expect(amountText(amount, 'metric')).toBe(text)
})

test('less than a litre or a kilogram is told in the smaller unit', () => {
  expect(inHandyUnit({ value: 0.895, unit: 'l' })).toEqual({
    value: 895,
    unit: 'ml',
  })
  expect(inHandyUnit({ value: -0.05, unit: 'kg' })).toEqual({
    value: -50,
    unit: 'g',
  })
  expect(inHandyUnit({ value: 1.5, unit: 'l' })).toEqual({
    value: 1.5,
    unit: 'l',
  })
  expect(inHandyUnit({ value: 0.5, unit: 'us-qt' })).toEqual({
    value: 0.5,
    unit: 'us-qt',
  })
})

const top = piece('table', 'table', ['top'], {
  widthMillimetres: 1250,
  depthMillimetres: 800,
})
const estimate = (method: 'spray' | 'wipe', thinningPercent = 0) => {
  const found = estimateAmount(
    step('a', 'coat', 'table-top', undefined, { method, thinningPercent }),
    { label: { spreadSquareMetresPerLitre: 10 } },
    surfaceAreas([top]),
  )
  if (found === undefined || 'needs' in found) throw new Error('expected one')
  return found
}

test('an estimate shows its arithmetic, also in US units', () => {
  // 1 / (10 x 0.65) = 0.15385 l; 1 m² = 10.764 ft², 10 m²/l = 407.46 ft²/gal, 5.2 fl oz.
  expect(estimateArithmetic(estimate('spray'), 'metric')).toBe(
    '1 m² ÷ (10 m²/l × 0.65) = 154 ml',
  )
  expect(estimateArithmetic(estimate('spray'), 'us')).toBe(
    '10.8 ft² ÷ (407 ft²/gal × 0.65) = 5.2 fl oz',
  )
})

test('thinner fills the cup and takes nothing out of the can', () => {
  expect(estimateArithmetic(estimate('spray', 10), 'metric')).toBe(
    '1 m² ÷ (10 m²/l × 0.65) = 154 ml; thinned by 10 to 100, 169 ml in the cup',
  )
})

test('what is wiped on goes by the label’s rate alone', () => {
  expect(estimateArithmetic(estimate('wipe'), 'metric')).toBe(
    '1 m² ÷ 10 m²/l = 100 ml',
  )
})
