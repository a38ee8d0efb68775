/*
 * ISO 6344-2 (macrogrits P12 to P220) and ISO 6344-3 (microgrits P240 to P2500): mean grain sizes, µm, the same as the
 * FEPA P grades; typed from memory of the tables. The CAMI grades of the USA (ANSI B74.18) part from them above 220.
 */
import { expect, test } from 'vitest'
import { grainSize } from '#core/finish/grain-size'

test.each([
  [40, 425],
  [60, 269],
  [80, 201],
  [100, 162],
  [120, 125],
  [150, 100],
  [180, 82],
  [220, 68],
  [240, 58.5],
  [280, 52.2],
  [320, 46.2],
  [400, 35],
  [600, 25.8],
  [800, 21.8],
  [1000, 18.3],
  [1200, 15.3],
])('the grains of P%d measure %d µm', (grade, micrometres) => {
  expect(grainSize(grade)).toBe(micrometres)
})

// Worked by hand from the table: 201 / 125, 201 / 100, 125 / 82, 125 / 68, 162 / 68.
test.each([
  [80, 120, 1.61],
  [80, 150, 2.01],
  [120, 180, 1.52],
  [120, 220, 1.84],
  [100, 220, 2.38],
])('from P%d to P%d the grains are %d times finer', (from, to, ratio) => {
  expect(grainSize(from) / grainSize(to)).toBeCloseTo(ratio, 2)
})
