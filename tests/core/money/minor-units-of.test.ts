import fc from 'fast-check'
import { expect, test } from 'vitest'
import { moneyDigits } from '#core/money/format-money'
import { minorUnitsOf } from '#core/money/minor-units-of'

// ISO 4217: the pound has two decimals, the yen none, the Kuwaiti dinar three.
test.each([
  ['24.50', 'GBP', 2450],
  ['24.5', 'GBP', 2450],
  ['24', 'GBP', 2400],
  ['0.29', 'GBP', 29],
  ['1.15', 'EUR', 115],
  ['2450', 'JPY', 2450],
  ['24.505', 'KWD', 24_505],
  ['24.5', 'KWD', 24_500],
])('%s of %s is %i minor units', (text, currency, minor) => {
  expect(minorUnitsOf(text, currency)).toBe(minor)
})

test.each([
  ['24.505', 'GBP'],
  ['24.5', 'JPY'],
  ['24.5055', 'KWD'],
  ['', 'GBP'],
  ['-1', 'GBP'],
  ['1e3', 'GBP'],
  ['24,50', 'GBP'],
  ['.5', 'GBP'],
  ['99999999999999999999', 'GBP'],
])('%s of %s is no price', (text, currency) => {
  expect(minorUnitsOf(text, currency)).toBeUndefined()
})

test('a price that is shown reads back as what it was', () => {
  fc.assert(
    fc.property(
      fc.nat({ max: 1_000_000_000 }),
      fc.constantFrom('GBP', 'JPY', 'KWD', 'CLF'),
      (minor, currency) => {
        expect(minorUnitsOf(moneyDigits(minor, currency), currency)).toBe(minor)
      },
    ),
  )
})
