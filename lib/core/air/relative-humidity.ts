import { saturationPressure } from '#core/air/saturation-pressure'

/**
 * The relative humidity of air of which the temperature and the dew point are known.
 *
 * @param celsius -40 to 60
 * @param dewPointCelsius -40 to 60, not above `celsius`
 * @returns percent, above 0 up to 100
 * @throws RangeError when the dew point is above the temperature, or outside those ranges
 * Source: Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601-609, Magnus form over water.
 */
export function relativeHumidity(
  celsius: number,
  dewPointCelsius: number,
): number {
  if (dewPointCelsius > celsius) {
    throw new RangeError(
      `relativeHumidity: expected a dew point not above ${celsius} °C, got ${dewPointCelsius}`,
    )
  }
  return (
    (100 * saturationPressure(dewPointCelsius)) / saturationPressure(celsius)
  )
}
