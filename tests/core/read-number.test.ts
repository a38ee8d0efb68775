import { describe, expect, test } from 'vitest'
import { readNumber } from '#core/read-number'

describe('a number as it is typed', () => {
  test.each([
    ['33.5', 33.5],
    ['33,5', 33.5],
    [' 450 ', 450],
    ['.5', 0.5],
    ['-3', -3],
    ['−3', -3],
    ['33 3/4', 33.75],
    ['33-3/4', 33.75],
    ['3/4', 0.75],
    ['33¾', 33.75],
    ['33 ½"', 33.5],
    ['⅞', 0.875],
    ['$485', 485],
    ['£ 485.50', 485.5],
    ['485 €', 485],
    ['82 %', 82],
    ['30"', 30],
    ['1,250.50', 1250.5],
    ['1.250,50', 1250.5],
    ['1 250', 1250],
    ['1 250,5', 1250.5],
    ['1,250,000', 1_250_000],
    ['0.125', 0.125],
  ])('%s', (text, value) => {
    expect(readNumber(text)).toBe(value)
  })
})

describe('is no number, or may be two', () => {
  test.each([
    '1,250',
    'ten',
    '',
    '1/0',
    '12 cm x 3',
    '1e3',
    '0x10',
    '--3',
    '3/',
  ])('%s', (text) => {
    expect(readNumber(text)).toBeNaN()
  })
})
