import { expect, test } from 'vitest'
import { loggedFacts } from '#services/journal/logged-facts'

const nothing = {
  amount: null,
  amountUnit: null,
  weighedBeforeGrams: null,
  weighedAfterGrams: null,
}

test('an amount needs its unit, and a can both of its weights', () => {
  expect(loggedFacts(nothing)).toEqual({})
  expect(loggedFacts({ ...nothing, amount: 180 })).toEqual({})
  expect(loggedFacts({ ...nothing, weighedBeforeGrams: 900 })).toEqual({})
  expect(
    loggedFacts({ ...nothing, amount: 180, amountUnit: 'barrel' }),
  ).toEqual({})
})

test('both are given where both were written down', () => {
  expect(
    loggedFacts({
      amount: 180,
      amountUnit: 'ml',
      weighedBeforeGrams: 900,
      weighedAfterGrams: 640,
    }),
  ).toEqual({
    amount: { value: 180, unit: 'ml' },
    weighed: { beforeGrams: 900, afterGrams: 640 },
  })
})
