import type { Units } from '#core/measures/units-of-measure'

/** Two degrees on the Fahrenheit scale for each on the Celsius scale, less a fifth: NIST SP 811, appendix B.8. */
const fahrenheitPerCelsius = 1.8
const fahrenheitAtFreezing = 32

/** A temperature as the owner reads it: °C as it is, or in °F. */
export function shownDegrees(celsius: number, units: Units): number {
  return units === 'us'
    ? celsius * fahrenheitPerCelsius + fahrenheitAtFreezing
    : celsius
}

/** The temperature in °C that the owner typed. */
export function typedCelsius(degrees: number, units: Units): number {
  return units === 'us'
    ? (degrees - fahrenheitAtFreezing) / fahrenheitPerCelsius
    : degrees
}

/** `°C` or `°F`. */
export function degreeSign(units: Units): string {
  return units === 'us' ? '°F' : '°C'
}

/**
 * A temperature in words: `14 °C`, `57 °F`.
 *
 * @param digits after the point at most; none is written that is zero
 */
export function temperatureWords(
  celsius: number,
  units: Units,
  digits = 0,
): string {
  return `${rounded(shownDegrees(celsius, units), digits)} ${degreeSign(units)}`
}

/** A difference of temperatures in words: `3 °C`, `5 °F`. Zero is no difference on either scale. */
export function differenceWords(
  celsius: number,
  units: Units,
  digits = 0,
): string {
  const degrees = units === 'us' ? celsius * fahrenheitPerCelsius : celsius
  return `${rounded(degrees, digits)} ${degreeSign(units)}`
}

function rounded(value: number, digits: number): string {
  const scale = 10 ** digits
  // Adding zero turns a rounded -0 into 0.
  return String(Math.round(value * scale) / scale + 0)
}
