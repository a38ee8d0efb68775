import { type Air, checkedAir } from '#core/air/air'
import { saturationPressure } from '#core/air/saturation-pressure'

/**
 * How far this air is from holding all the water it can: what pulls water out of a wet film.
 *
 * @returns pascals, 0 at 100 %
 * @throws RangeError outside the ranges of `Air`
 * Source: the definition, with the saturation pressure of saturation-pressure.ts.
 */
export function vapourPressureDeficit(air: Air): number {
  const { celsius, humidity } = checkedAir(air)
  return deficitIn(celsius, humidity)
}

/** The same for air that is within those ranges. */
export function deficitIn(celsius: number, humidity: number): number {
  return saturationPressure(celsius) * (1 - humidity / 100)
}
