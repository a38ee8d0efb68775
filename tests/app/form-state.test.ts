import { expect, test } from 'vitest'
import { moneyOf } from '../../app/_form-state'

function typed(price: string): FormData {
  const form = new FormData()
  form.set('price', price)
  return form
}

test.each([
  ['450', 'GBP', 45_000],
  ['$1,250.50', 'USD', 125_050],
  ['1.250,50', 'EUR', 125_050],
  ['1.250', 'KWD', 1250],
  ['12500', 'JPY', 12_500],
])('the price %s in %s', (text, currency, minor) => {
  expect(moneyOf(typed(text), 'price', currency)).toBe(minor)
})

test.each([
  ['1.250', 'EUR'],
  ['€1.250', 'EUR'],
  ['1,250', 'USD'],
])('%s in %s could be two prices, and is asked for again', (text, currency) => {
  expect(moneyOf(typed(text), 'price', currency)).toBeNaN()
})

test('an empty field is no price', () => {
  expect(moneyOf(typed(' '), 'price', 'EUR')).toBeUndefined()
})
