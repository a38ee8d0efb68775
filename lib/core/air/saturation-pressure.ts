import { coldestAirCelsius, warmestAirCelsius } from '#core/air/air'

// Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601-609: Magnus form over water, AERK constants.
const pascalsAtZero = 610.94
const slope = 17.625
const offsetCelsius = 243.04

/** The exponent of the Magnus form over water: 0 at 0 °C, without unit. */
export function magnusExponent(celsius: number): number {
  return (slope * celsius) / (offsetCelsius + celsius)
}

/** The temperature, °C, whose Magnus exponent this is. */
export function celsiusOfMagnusExponent(exponent: number): number {
  return (offsetCelsius * exponent) / (slope - exponent)
}

/**
 * The pressure of water vapour in air that can hold no more of it, over water.
 *
 * @param celsius -40 to 60
 * @returns pascals
 * @throws RangeError outside that range
 * Source: Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601-609, Magnus form over water.
 */
export function saturationPressure(celsius: number): number {
  if (!(celsius >= coldestAirCelsius && celsius <= warmestAirCelsius)) {
    throw new RangeError(
      `saturationPressure: expected -40 to 60 °C, got ${celsius}`,
    )
  }
  return pascalsAtZero * Math.exp(magnusExponent(celsius))
}
