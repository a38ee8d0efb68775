import { expect, test } from 'vitest'
import {
  shownSpreadRate,
  spreadRateSign,
  typedSpreadRate,
  volumeOnAreaWords,
} from '#core/measures/spread-rate'

// Worked: 1 m² is 1 / 0.09290304 = 10.76391 ft², 1 gal is 3.785411784 l, so 1 m²/l is 40.74583 ft²/gal.
test('a spread rate there and back', () => {
  expect(shownSpreadRate(1, 'us')).toBeCloseTo(40.74583, 5)
  expect(typedSpreadRate(400, 'us')).toBeCloseTo(9.81695, 5)
  expect(shownSpreadRate(9.8, 'metric')).toBe(9.8)
  expect(typedSpreadRate(9.8, 'metric')).toBe(9.8)
  expect([spreadRateSign('us'), spreadRateSign('metric')]).toEqual([
    'ft²/gal',
    'm²/l',
  ])
})

// Worked: 310 ml are 310 / 29.57353 = 10.482 fl oz; 1.97 m² are 21.205 ft².
test('so much on so large an area', () => {
  expect(volumeOnAreaWords(0.31, 1.97, 'metric')).toBe('310 ml on 1.97 m²')
  expect(volumeOnAreaWords(0.31, 1.97, 'us')).toBe('10.5 fl oz on 21.2 ft²')
})
