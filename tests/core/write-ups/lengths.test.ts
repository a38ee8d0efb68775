import fc from 'fast-check'
import { expect, test } from 'vitest'
import { centimetresText, inchesText } from '#core/write-ups/lengths'

// 36 x 18 x 32 1/2 in = 91.4 x 45.7 x 82.6 cm: 1 in = 25.4 mm, the trade's worked example.
test.each([
  [914, '91.4', '36'],
  [457, '45.7', '18'],
  [826, '82.6', '32 1/2'],
  // Multiples of 25.4 and of its quarters.
  [254, '25.4', '10'],
  [260, '26', '10 1/4'],
  [6, '0.6', '1/4'],
  [1, '0.1', '0'],
  [1520, '152', '59 3/4'],
  // 31.9 in is nearer to 32 than to 31 3/4.
  [810, '81', '32'],
])('%i mm are %s cm or %s in', (millimetres, centimetres, inches) => {
  expect(centimetresText(millimetres)).toBe(centimetres)
  expect(inchesText(millimetres)).toBe(inches)
})

test('inches are never off by more than an eighth', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 10_000 }), (millimetres) => {
      const [whole = '0', fraction = '0'] = inchesText(millimetres)
        .replace(/^(\d)\/4$|^1\/2$/, '0 $&')
        .split(' ')
      const [top = 0, bottom = 1] = fraction.split('/').map(Number)
      const inches = Number(whole) + top / bottom
      expect(Math.abs(inches - millimetres / 25.4)).toBeLessThanOrEqual(0.125)
    }),
  )
})
