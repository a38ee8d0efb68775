import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  degreeSign,
  differenceWords,
  shownDegrees,
  temperatureWords,
  typedCelsius,
} from '#core/measures/temperature'

// The fixed points of the scales: NIST SP 811, appendix B.8; -40 is where they meet.
test.each([
  [-40, -40],
  [0, 32],
  [100, 212],
  [25, 77],
  [10, 50],
])('%d °C are %d °F', (celsius, fahrenheit) => {
  expect(shownDegrees(celsius, 'us')).toBeCloseTo(fahrenheit, 10)
  expect(typedCelsius(fahrenheit, 'us')).toBeCloseTo(celsius, 10)
  expect(shownDegrees(celsius, 'metric')).toBe(celsius)
  expect(typedCelsius(celsius, 'metric')).toBe(celsius)
})

test('a temperature is said to the digits that are asked for', () => {
  expect(temperatureWords(21.1111, 'us')).toBe('70 °F')
  expect(temperatureWords(21.1111, 'metric')).toBe('21 °C')
  expect(temperatureWords(14.36, 'metric', 1)).toBe('14.4 °C')
  expect(temperatureWords(-0.2, 'metric')).toBe('0 °C')
  expect(degreeSign('us')).toBe('°F')
})

test('a difference has no freezing point in it', () => {
  expect(differenceWords(3, 'us', 1)).toBe('5.4 °F')
  expect(differenceWords(3, 'metric')).toBe('3 °C')
  expect(differenceWords(0, 'us')).toBe('0 °F')
})

test('what is shown and typed again is the same temperature', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -40, max: 60, noNaN: true }),
      fc.constantFrom('metric' as const, 'us' as const),
      (celsius, units) => {
        expect(typedCelsius(shownDegrees(celsius, units), units)).toBeCloseTo(
          celsius,
          9,
        )
      },
    ),
  )
})
