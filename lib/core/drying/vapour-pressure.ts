/** The liquids whose loss sets the pace of a finish. */
export type Solvent = 'ethanol' | 'acetone' | 'n-butyl acetate' | 'n-decane'

type Antoine = {
  readonly a: number
  readonly b: number
  readonly c: number
  /** What to add to °C before the equation. */
  readonly zeroCelsius: number
  readonly pascals: number
}

const kelvinAtZeroCelsius = 273.15
const pascalsPerBar = 100_000
const pascalsPerKilopascal = 1000

const antoine: Record<Solvent, Antoine> = {
  // NIST Chemistry WebBook, ethanol, 273 to 352.6 K (quoted second-hand).
  ethanol: {
    a: 5.37229,
    b: 1670.409,
    c: -40.191,
    zeroCelsius: kelvinAtZeroCelsius,
    pascals: pascalsPerBar,
  },
  // NIST Chemistry WebBook, acetone, 259.2 to 507.6 K (quoted second-hand).
  acetone: {
    a: 4.42448,
    b: 1312.253,
    c: -32.445,
    zeroCelsius: kelvinAtZeroCelsius,
    pascals: pascalsPerBar,
  },
  // Handbook set, 60 to 126 °C (quoted second-hand), carried on to room temperature.
  'n-butyl acetate': {
    a: 6.25205,
    b: 1430.418,
    c: 210.745,
    zeroCelsius: 0,
    pascals: pascalsPerKilopascal,
  },
  // NIST Chemistry WebBook, decane, 367.6 to 448.3 K (quoted second-hand), carried on to room temperature. Stands
  // in for mineral spirits. The set for 243 to 311 K is 28 % low at 25 °C and far too flat: not used.
  'n-decane': {
    a: 4.07857,
    b: 1501.268,
    c: -78.67,
    zeroCelsius: kelvinAtZeroCelsius,
    pascals: pascalsPerBar,
  },
}

/**
 * The vapour pressure of a solvent: how hard it pulls out of a wet film.
 *
 * @param celsius -40 to 60
 * @returns pascals
 * Source: Antoine's equation, log10 p = A - B / (T + C); the constants name theirs.
 */
export function vapourPressure(solvent: Solvent, celsius: number): number {
  const { a, b, c, zeroCelsius, pascals } = antoine[solvent]
  // Several times faster than a power of ten, and asked for every reading of a year.
  return pascals * Math.exp(Math.LN10 * (a - b / (celsius + zeroCelsius + c)))
}
