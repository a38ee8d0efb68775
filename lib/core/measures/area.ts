import type { Units } from '#core/measures/units-of-measure'

/** Exact: the foot is 0.3048 m (International yard and pound agreement, 1959). */
const squareMetresPerSquareFoot = 0.3048 ** 2

/** An area as the owner reads it: m² as it is, or in square feet. */
export function shownArea(squareMetres: number, units: Units): number {
  return units === 'us'
    ? squareMetres / squareMetresPerSquareFoot
    : squareMetres
}

/** The area in m² that the owner typed, to the square millimetre. */
export function typedSquareMetres(area: number, units: Units): number {
  const squareMetres = units === 'us' ? area * squareMetresPerSquareFoot : area
  return Math.round(squareMetres * 1_000_000) / 1_000_000
}

/** `m²` or `ft²`. */
export function areaSign(units: Units): string {
  return units === 'us' ? 'ft²' : 'm²'
}
