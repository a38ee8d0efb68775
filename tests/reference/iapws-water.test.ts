/*
 * IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997, section 8.1, table 35: saturation pressure
 * at 300 K. http://www.iapws.org/relguide/IF97-Rev.html
 * IAPWS R6-95(2018): pressure at the triple point, 273.16 K.
 * Both values typed from memory. Tolerance: the 0.3 % within which the Magnus form holds from 0 to 40 °C.
 */
import { expect, test } from 'vitest'
import { saturationPressure } from '#core/air/saturation-pressure'

test.each([
  [300, 3536.58941],
  [273.16, 611.657],
])('water at %d K pulls with %d Pa', (kelvin, pascals) => {
  expect(
    Math.abs(saturationPressure(kelvin - 273.15) / pascals - 1),
  ).toBeLessThan(0.003)
})
