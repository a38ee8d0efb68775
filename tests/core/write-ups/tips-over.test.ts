import { expect, test } from 'vitest'
import { tipsOver } from '#core/write-ups/tips-over'
import { piece } from './jobs.ts'

// 16 CFR 1261 (ASTM F2057-23): clothing storage units of 27 in (686 mm) and more; lidded chests are excluded.
test.each([
  ['chest of drawers', 686, true],
  ['chest of drawers', 685, false],
  ['wardrobe', 1800, true],
  ['dresser', undefined, true],
  ['blanket box', 900, false],
  ['bench', 900, false],
])('a %s %s mm high: %s', (kind, heightMillimetres, told) => {
  expect(
    tipsOver(
      piece('p', kind, ['body'], {
        ...(heightMillimetres !== undefined && { heightMillimetres }),
      }),
    ),
  ).toBe(told)
})

test('drawers tell, whatever the owner calls the piece', () => {
  expect(
    tipsOver(
      piece('p', 'lowboy', ['drawer fronts'], { heightMillimetres: 700 }),
    ),
  ).toBe(true)
})
