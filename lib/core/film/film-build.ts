/** A litre spread one micrometre thick covers this many m². */
const squareMetresPerLitreMicrometre = 1000

/**
 * The dry film that some amount leaves on an area.
 *
 * @param litres of the product as it comes from the can: thinner adds no solids
 * @param solidsByVolume 0 to 1
 * @param transfer the share that lands on the work, 0 to 1
 * @returns µm
 * Source: one litre at 1 µm covers 1000 m² (definition of the litre); ISO 23811 and ASTM D2697 measure the solids.
 */
export function dryFilmMicrometres(
  litres: number,
  solidsByVolume: number,
  transfer: number,
  areaSquareMetres: number,
): number {
  return (
    (squareMetresPerLitreMicrometre * litres * solidsByVolume * transfer) /
    areaSquareMetres
  )
}

/**
 * How far a litre goes at a dry film, with nothing lost.
 *
 * @returns m² per litre
 */
export function spreadAtDryFilm(
  solidsByVolume: number,
  dryMicrometres: number,
): number {
  return (squareMetresPerLitreMicrometre * solidsByVolume) / dryMicrometres
}

/**
 * The wet film that dries to a dry film.
 *
 * @param thinningPercent parts of thinner added to 100 parts of product
 * @returns µm
 */
export function wetFilmMicrometres(
  dryMicrometres: number,
  solidsByVolume: number,
  thinningPercent = 0,
): number {
  return (dryMicrometres * (1 + thinningPercent / 100)) / solidsByVolume
}

/**
 * How much product some coats on an area need.
 *
 * @param spreadSquareMetresPerLitre with nothing lost
 * @returns litres
 */
export function litresNeeded(
  areaSquareMetres: number,
  coats: number,
  spreadSquareMetresPerLitre: number,
  transfer: number,
): number {
  return (areaSquareMetres * coats) / (spreadSquareMetresPerLitre * transfer)
}

/**
 * The dry film laid on, divided by the one that the label's spread rate gives: 1 is an ordinary coat.
 *
 * Both are of the same product, so its solids cancel.
 */
export function filmRatio(
  litres: number,
  transfer: number,
  areaSquareMetres: number,
  spreadSquareMetresPerLitre: number,
): number {
  return (litres * transfer * spreadSquareMetresPerLitre) / areaSquareMetres
}
