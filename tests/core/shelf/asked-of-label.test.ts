import { expect, test } from 'vitest'
import { askedOfLabel, usualPackUnit } from '#core/shelf/asked-of-label'
import { productCategories } from '#core/shelf/product'
import { driesOn } from '#core/shelf/suits-step'

test('everything that dries on the piece is asked for all of its label', () => {
  for (const category of productCategories.filter(driesOn)) {
    expect(askedOfLabel(category), category).toBe('everything')
  }
})

test('a stripper and a cleaner are asked how long to wait, paper and abrasives nothing', () => {
  expect(askedOfLabel('stripper')).toBe('wait')
  expect(askedOfLabel('cleaner')).toBe('wait')
  expect(askedOfLabel('paper')).toBe('nothing')
  expect(askedOfLabel('abrasive')).toBe('nothing')
})

test('a pack of paper is a roll, not millilitres', () => {
  expect(usualPackUnit('paper')).toBe('roll')
  expect(usualPackUnit('abrasive')).toBe('sheet')
  expect(usualPackUnit('paint')).toBe('ml')
})
