import type { Units } from '#core/measures/units-of-measure'

/** Exact: the foot is 0.3048 m (International yard and pound agreement, 1959). */
const squareMetresPerSquareFoot = 0.3048 ** 2
/** Exact: 231 cubic inches of 25.4 mm (NIST Handbook 44, appendix C). */
const litresPerGallon = 3.785411784
const fluidOuncesPerGallon = 128

const squareFeetPerGallon = litresPerGallon / squareMetresPerSquareFoot

/** A spread rate as labels print it: m² a litre as it is, or square feet a US gallon. */
export function shownSpreadRate(
  squareMetresPerLitre: number,
  units: Units,
): number {
  return units === 'us'
    ? squareMetresPerLitre * squareFeetPerGallon
    : squareMetresPerLitre
}

/** The spread rate in m² a litre that the owner typed. */
export function typedSpreadRate(rate: number, units: Units): number {
  return units === 'us' ? rate / squareFeetPerGallon : rate
}

/** `m²/l` or `ft²/gal`. */
export function spreadRateSign(units: Units): string {
  return units === 'us' ? 'ft²/gal' : 'm²/l'
}

/** So much of a liquid on so large an area, in words: `310 ml on 1.97 m²`, `10.5 fl oz on 21.2 ft²`. */
export function volumeOnAreaWords(
  litres: number,
  squareMetres: number,
  units: Units,
): string {
  return units === 'us'
    ? `${((litres / litresPerGallon) * fluidOuncesPerGallon).toFixed(1)} fl oz on ${(squareMetres / squareMetresPerSquareFoot).toFixed(1)} ft²`
    : `${Math.round(litres * 1000)} ml on ${squareMetres.toFixed(2)} m²`
}
