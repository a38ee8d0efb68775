import {
  decimalText,
  fractionOf,
  over,
  roundHalfAway,
  times,
} from '#core/money/fraction'

/**
 * A length in centimetres, whole or with one decimal, rounded half away from zero: 914 mm is `91.4`.
 */
export function centimetresText(millimetres: number): string {
  return decimalText(over(fractionOf(millimetres), fractionOf(10)), 1)
}

/**
 * A length in inches to the nearest quarter: 826 mm is `32 1/2`.
 *
 * An inch is 25.4 mm exactly (International yard and pound agreement, 1959).
 */
export function inchesText(millimetres: number): string {
  const quarters = roundHalfAway(
    over(times(fractionOf(millimetres), fractionOf(4)), fractionOf(25.4)),
  )
  const whole = quarters / 4n
  const fraction = ['', '1/4', '1/2', '3/4'][Number(quarters % 4n)] ?? ''
  if (fraction === '') return String(whole)
  return whole === 0n ? fraction : `${whole.toString()} ${fraction}`
}
