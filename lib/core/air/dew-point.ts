import { type Air, checkedAir } from '#core/air/air'
import {
  celsiusOfMagnusExponent,
  magnusExponent,
} from '#core/air/saturation-pressure'

/**
 * The temperature at which this air would wet a surface.
 *
 * Over water also below 0 °C, where tables often print the frost point instead.
 *
 * @returns °C, never above `air.celsius`; equal to it at 100 %
 * @throws RangeError outside the ranges of `Air`
 * Source: Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601-609, Magnus form over water, solved for the temperature.
 */
export function dewPoint(air: Air): number {
  const { celsius, humidity } = checkedAir(air)
  // Exact at 100 %, which the quotient below is only to the last digit.
  if (humidity === 100) return celsius
  return Math.min(
    celsius,
    celsiusOfMagnusExponent(Math.log(humidity / 100) + magnusExponent(celsius)),
  )
}
