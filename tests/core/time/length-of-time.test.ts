import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lengthOfTime } from '#core/time/length-of-time'

test.each([
  [0, '0 min'],
  [38, '38 min'],
  [60, '60 min'],
  [90, '90 min'],
  [91, '1 h 31 min'],
  [100, '1 h 40 min'],
  [120, '2 h'],
  [630, '10 h 30 min'],
  [1440, '24 h'],
  [2880, '48 h'],
  [4320, '3 days'],
  [4620, '3 days 5 h'],
  [43_200, '30 days'],
  [-5, '-5 min'],
])('%d minutes are said as %s', (length, words) => {
  expect(lengthOfTime(length)).toBe(words)
})

test('a wait just short of the label reads shorter than the label', () => {
  expect(lengthOfTime(59.9, 'down')).toBe('59 min')
  expect(lengthOfTime(59.9, 'up')).toBe('60 min')
})

test('a rounding error of a sum is no minute more or less', () => {
  expect(lengthOfTime(60 - 1e-9, 'down')).toBe('60 min')
  expect(lengthOfTime(60 + 1e-9, 'up')).toBe('60 min')
})

test('minutes and hours never run over', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1e6, noNaN: true }),
      fc.constantFrom('down', 'nearest', 'up'),
      (length, rounding) => {
        const words = lengthOfTime(length, rounding)
        const [, minutesOver = '0'] = /h (\d+) min$/.exec(words) ?? []
        const [, hoursOver = '0'] = /days (\d+) h$/.exec(words) ?? []
        expect(Number(minutesOver)).toBeLessThan(60)
        expect(Number(hoursOver)).toBeLessThan(24)
      },
    ),
  )
})
