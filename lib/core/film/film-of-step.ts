import { filmRatio } from '#core/film/film-build'
import { transferShare } from '#core/film/transfer-share'
import { volumeOnAreaWords } from '#core/measures/spread-rate'
import type { Units } from '#core/measures/units-of-measure'
import type { Step } from '#core/journal/journal'
import { litresOf } from '#core/materials/amounts'
import { loggedAmount } from '#core/materials/logged-amount'
import { decimalText } from '#core/money/fraction'
import type { StepKind } from '#core/journal/vocabulary'
import type { Amount, Product } from '#core/shelf/product'

/** How thick a coat went on, and what it was reckoned from. */
export type CoatFilm = {
  /** Dry film over the label's: 1 is an ordinary coat. */
  readonly ratio: number
  readonly litres: number
  readonly areaSquareMetres: number
  /** The share of the product that is taken to have landed, 0 to 1. */
  readonly transfer: number
}

const millilitresPerLitre = 1000

/** Steps whose product stays on as a film: stain and conditioner soak in, stripper and wax come off again. */
const filmKinds: ReadonlySet<StepKind> = new Set<StepKind>([
  'prime',
  'coat',
  'glaze',
  'seal',
  'hardware',
])

/**
 * How thick a coat went on, from the amount written down, the size of its surfaces, the spread rate of the label and how
 * it was put on; undefined where one of them is not known.
 *
 * The amount is of the product as it comes from the can; thinner makes the wet film thicker and the dry one no
 * different. Where several surfaces share a step they are taken to share the film too.
 *
 * @param areaOfSurface m², by the id of a surface, as `surfaceAreas` gives it
 */
export function filmOfStep(
  step: Pick<Step, 'kind' | 'amount' | 'weighed' | 'method' | 'surfaces'>,
  product: Pick<Product, 'label'> | undefined,
  areaOfSurface: (surfaceId: string) => number | undefined,
): CoatFilm | undefined {
  if (!filmKinds.has(step.kind)) return undefined
  const litres = litresOn(
    loggedAmount(step),
    product?.label.densityKilogramsPerLitre,
  )
  const spread = product?.label.spreadSquareMetresPerLitre
  const transfer = transferShare(step.method)
  if (litres === undefined || spread === undefined || transfer === undefined)
    return undefined
  const area = areaOf(step, areaOfSurface)
  if (area === undefined || area <= 0) return undefined
  return {
    ratio: filmRatio(litres, transfer, area, spread),
    litres,
    areaSquareMetres: area,
    transfer,
  }
}

/** The numbers of a film as they read in a sentence: `310 ml on 1.97 m², 65 % of it on the wood`. */
export function filmInWords(film: CoatFilm, units: Units): string {
  return `${volumeOnAreaWords(film.litres, film.areaSquareMetres, units)}, ${Math.round(film.transfer * 100)} % of it on the wood`
}

function litresOn(
  amount: Amount | undefined,
  densityKilogramsPerLitre: number | undefined,
): number | undefined {
  if (amount === undefined) return undefined
  // Most amounts are metric, and exact arithmetic takes its time.
  if (amount.unit === 'l') return amount.value
  if (amount.unit === 'ml') return amount.value / millilitresPerLitre
  const litres = litresOf(amount, densityKilogramsPerLitre)
  return litres === undefined ? undefined : Number(decimalText(litres, 9))
}

function areaOf(
  step: Pick<Step, 'surfaces'>,
  areaOfSurface: (surfaceId: string) => number | undefined,
): number | undefined {
  let sum = 0
  for (const { surfaceId } of step.surfaces) {
    const area = areaOfSurface(surfaceId)
    if (area === undefined) return undefined
    sum += area
  }
  return sum
}
