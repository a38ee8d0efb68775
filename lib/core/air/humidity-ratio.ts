import { type Air, checkedAir } from '#core/air/air'
import { saturationPressure } from '#core/air/saturation-pressure'

/** One standard atmosphere, Pa. */
const standardPressure = 101_325
/** Molar mass of water over that of dry air. Source: ASHRAE Handbook Fundamentals 2017, chapter 1. */
const molarMassRatio = 0.621945

/**
 * How much water the air holds: kilograms of vapour with each kilogram of dry air.
 *
 * It stays the same when air is only heated or cooled, so it tells whether a workshop was aired or only warmed.
 *
 * @param pressurePascals of the air as a whole; one atmosphere when not told
 * @returns kg/kg
 * @throws RangeError outside the ranges of `Air`
 * Source: ASHRAE Handbook Fundamentals 2017, chapter 1, equation 20, with the saturation pressure of
 *   saturation-pressure.ts.
 */
export function humidityRatio(
  air: Air,
  pressurePascals = standardPressure,
): number {
  const { celsius, humidity } = checkedAir(air)
  const vapour = (saturationPressure(celsius) * humidity) / 100
  return (molarMassRatio * vapour) / (pressurePascals - vapour)
}
