import { expect, test } from 'vitest'
import { stockOf } from '#core/materials/stock'
import type { Amount } from '#core/shelf/product'
import { product } from '../write-ups/jobs.ts'

const enamel = (packsBought?: number) =>
  product(
    'enamel',
    'waterborne enamel, moss',
    'paint',
    'waterborne-acrylic',
    { densityKilogramsPerLitre: 1.25 },
    {
      pack: { amount: { value: 1, unit: 'l' }, priceMinor: 3200 },
      ...(packsBought !== undefined && { packsBought }),
    },
  )
const ml = (value: number): Amount => ({ value, unit: 'ml' })

test('what is left is what was bought less what was used, by volume or by weight', () => {
  // 2 l − 0.6 l − 500 g ÷ 1.25 kg/l = 1 l.
  expect(
    stockOf(enamel(2), [ml(600), { value: 500, unit: 'g' }], 0, [ml(600)]),
  ).toEqual({
    productId: 'enamel',
    left: { value: 1, unit: 'l' },
    packsBought: 2,
    packsSupposed: false,
    unmeasuredUses: 0,
    buyAgain: false,
  })
})

test('no more packs are supposed than the use needed', () => {
  expect(stockOf(enamel(), [ml(1300)], 0, [ml(300)])).toMatchObject({
    left: { value: 0.7, unit: 'l' },
    packsBought: 2,
    packsSupposed: true,
  })
})

test('what would not do for such a job once more is to be bought again', () => {
  expect(stockOf(enamel(1), [ml(600)], 0, [ml(600)])?.buyAgain).toBe(true)
  expect(stockOf(enamel(1), [ml(500)], 0, [ml(500)])?.buyAgain).toBe(false)
})

test('more used than bought is below nothing', () => {
  expect(stockOf(enamel(1), [ml(1200)], 0, [])?.left.value).toBe(-0.2)
})

test('an amount that the pack cannot be held against counts as unmeasured', () => {
  expect(
    stockOf(enamel(1), [ml(100), { value: 1, unit: 'can' }], 2, []),
  ).toMatchObject({ left: { value: 0.9 }, unmeasuredUses: 3 })
})

test('nothing is known without a pack', () => {
  expect(
    stockOf(product('p', 'p', 'paint', 'other'), [ml(1)], 0, []),
  ).toBeUndefined()
})
