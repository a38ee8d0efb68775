import { type Air, checkedAir } from '#core/air/air'

/**
 * The moisture that wood comes to in this air if it is left there long enough: its equilibrium moisture content.
 *
 * Species and pieces differ by a percent or so, more where it is damp; show it to half a percent at the finest. It takes
 * days to weeks to come about.
 *
 * @returns percent of the dry wood's weight: a board of 100 g dry that holds 9 g of water has 9 %
 * @throws RangeError outside the ranges of `Air`
 * Source: Wood Handbook, Forest Products Laboratory, FPL-GTR-282 (2021), equation 4-5, SI constants: the sorption
 *   equation of Hailwood and Horrobin with two hydrates. It was fitted from 0 to 95 % and above -1 °C.
 */
export function woodMoisture(air: Air): number {
  const { celsius, humidity } = checkedAir(air)
  const square = celsius * celsius
  const w = 349 + 1.29 * celsius + 0.0135 * square
  const k = 0.805 + 0.000736 * celsius - 0.00000273 * square
  const k1 = 6.27 - 0.00938 * celsius - 0.000303 * square
  const k2 = 1.91 + 0.0407 * celsius - 0.000293 * square
  const kh = (k * humidity) / 100
  const first = k1 * kh
  const second = k1 * k2 * kh * kh
  return (
    (1800 / w) * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second))
  )
}
