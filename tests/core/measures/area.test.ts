import { expect, test } from 'vitest'
import { areaSign, shownArea, typedSquareMetres } from '#core/measures/area'

// The chest of the worked examples: 2952 in² are 20.5 ft², 1.9045 m² (0.09290304 m² to the square foot).
test('20.5 square feet are 1.9045 m²', () => {
  expect(typedSquareMetres(20.5, 'us')).toBeCloseTo(1.9045, 4)
  expect(shownArea(1.90451232, 'us')).toBeCloseTo(20.5, 9)
  expect(areaSign('us')).toBe('ft²')
})

test('square metres stay what they are', () => {
  expect(typedSquareMetres(1.9, 'metric')).toBe(1.9)
  expect(shownArea(1.9, 'metric')).toBe(1.9)
  expect(areaSign('metric')).toBe('m²')
})
