/** Air at one moment: °C (-40 to 60), and relative humidity in percent (above 0, up to 100). */
export type Air = { readonly celsius: number; readonly humidity: number }

/** The temperatures our formulas for moist air are used for, °C. Source of the formulas: saturation-pressure.ts. */
export const coldestAirCelsius = -40
export const warmestAirCelsius = 60

/** Whether our formulas hold for this air. */
export function isAir(air: Air): boolean {
  return (
    air.celsius >= coldestAirCelsius &&
    air.celsius <= warmestAirCelsius &&
    air.humidity > 0 &&
    air.humidity <= 100
  )
}

/**
 * The same air, once it is known that our formulas hold for it.
 *
 * @throws RangeError outside their ranges
 */
export function checkedAir(air: Air): Air {
  if (!isAir(air)) {
    throw new RangeError(
      `air: expected -40 to 60 °C and above 0 to 100 %, got ${air.celsius} °C and ${air.humidity} %`,
    )
  }
  return air
}
