import fc from 'fast-check'
import { expect, test } from 'vitest'
import { formatMoney, moneyDigits } from '#core/money/format-money'
import { minorUnitDigits } from '#core/money/minor-unit-digits'

// ISO 4217, minor units: the standard's own list, typed from memory.
test.each([
  ['GBP', 2],
  ['EUR', 2],
  ['USD', 2],
  ['JPY', 0],
  ['KRW', 0],
  ['KWD', 3],
  ['BHD', 3],
  ['CLF', 4],
] as const)('%s has %i decimals', (currency, digits) => {
  expect(minorUnitDigits(currency)).toBe(digits)
})

test.each([
  [2360, 'GBP', '£23.60'],
  [123456789, 'USD', '$1,234,567.89'],
  [45000, 'EUR', '€450.00'],
  [45000, 'JPY', '¥45,000'],
  [1234, 'KWD', 'KWD 1.234'],
  [5, 'GBP', '£0.05'],
  [-8155, 'GBP', '-£81.55'],
  [0, 'GBP', '£0.00'],
])('%i minor units of %s read %s', (minor, currency, text) => {
  expect(formatMoney(minor, currency)).toBe(text)
})

test.each([
  [45000, '£450'],
  [45050, '£450.50'],
  [120000, '£1,200'],
])('a price tag of %i pence reads %s', (minor, text) => {
  expect(formatMoney(minor, 'GBP', { wholeShort: true })).toBe(text)
})

test('half a penny is no amount of money', () => {
  expect(() => formatMoney(0.5, 'GBP')).toThrow(RangeError)
})

test('the digits of money, without their point, are the minor units', () => {
  fc.assert(
    fc.property(
      fc.maxSafeInteger(),
      fc.constantFrom('GBP', 'JPY', 'KWD', 'CLF'),
      (minor, currency) => {
        const digits = moneyDigits(minor, currency)
        expect(Number(digits.replace('.', ''))).toBe(minor === 0 ? 0 : minor)
        expect(digits.split('.')[1]?.length ?? 0).toBe(
          minorUnitDigits(currency),
        )
        expect(formatMoney(minor, currency).replace(/[^\d.-]/g, '')).toBe(
          digits,
        )
      },
    ),
  )
})
