import { expect, test } from 'vitest'
import { brightens, purposeOfUse } from '#core/materials/purpose'

test.each([
  ['Metal polish', 'other', 'polish'],
  ['Rust remover', 'other', 'clean'],
  ['Brass lacquer', 'other', undefined],
  ['Beeswax polish', 'wax', undefined],
] as const)('%s (%s) on hardware: %s', (name, category, does) => {
  expect(brightens({ name, category })).toBe(does)
})

test.each([
  ['Metal polish', 'other', 'polish'],
  ['Rust remover', 'other', 'cleaner'],
  ['Brass lacquer', 'other', 'hardware finish'],
  ['Aerosol metallic, brass', 'hardware finish', 'hardware finish'],
] as const)('on hardware %s (%s) is used as %s', (name, category, purpose) => {
  expect(purposeOfUse('hardware', { name, category })).toBe(purpose)
})

test('what polishes metal is told by the kind of step where that is no work on hardware', () => {
  expect(
    purposeOfUse('clean', { name: 'Metal polish', category: 'other' }),
  ).toBe('cleaner')
})
