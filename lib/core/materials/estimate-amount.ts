import { countsCoats } from '#core/journal/coats'
import type { Step } from '#core/journal/journal'
import type { Method } from '#core/journal/vocabulary'
import { transferShare } from '#core/film/transfer-share'
import {
  type Fraction,
  fractionOf,
  over,
  sumOf,
  times,
} from '#core/money/fraction'
import type { Product } from '#core/shelf/product'

/** How much of a product one step is reckoned to have used, with what it was reckoned from. */
export type AmountEstimate = {
  readonly stepId: string
  /** Of the product as it comes from the can, exactly. */
  readonly litres: Fraction
  /** What one coat covers, m². */
  readonly area: Fraction
  readonly spreadSquareMetresPerLitre: number
  /** The share that lands on the work, 0 to 1. */
  readonly transfer: number
  /** Parts added to 100: the cup holds so much more than came from the can. */
  readonly thinningPercent: number
  /** Over how many steps a coat was laid on, where it is more than one. */
  readonly sittings: number
}

/** What must be known before an amount can be reckoned. */
export type EstimateNeed = 'spread rate' | 'method' | 'area'

/**
 * How much of a product a step used, from the area of its surfaces, the spread rate of the label and how it was put on;
 * or what is missing for it. One coat: a step is one.
 *
 * Thinner is added to the product and not taken from it: the same dry film takes the same amount out of the can.
 * A wiped-on product is reckoned at the label's rate, which counts what is wiped off again.
 *
 * @param areaOfSurface m², by the id of a surface
 * @param sittingsOf over how many steps the coat on a surface was laid, 1 or more
 * @returns undefined for a step whose kind lays no coat, so that nothing tells how much it took
 * Source: litres = area / (spread rate x transfer share), plane arithmetic; a wiped product at the label's rate: common
 *   practice, no source.
 */
export function estimateAmount(
  step: Pick<Step, 'id' | 'kind' | 'method' | 'surfaces' | 'thinningPercent'>,
  product: Pick<Product, 'label'>,
  areaOfSurface: (surfaceId: string) => number | undefined,
  sittingsOf: (surfaceId: string) => number = () => 1,
): AmountEstimate | { readonly needs: readonly EstimateNeed[] } | undefined {
  if (!countsCoats(step.kind) && step.kind !== 'strip') return undefined
  const spread = product.label.spreadSquareMetresPerLitre
  const transfer = shareUsed(step.method)
  const areas = step.surfaces.map(({ surfaceId }) => {
    const area = areaOfSurface(surfaceId)
    return area === undefined || !(area > 0)
      ? undefined
      : over(fractionOf(area), fractionOf(sittingsOf(surfaceId)))
  })
  const known = areas.flatMap((area) => area ?? [])
  if (
    spread === undefined ||
    transfer === undefined ||
    known.length < areas.length
  ) {
    return {
      needs: [
        ...(spread === undefined ? (['spread rate'] as const) : []),
        ...(transfer === undefined ? (['method'] as const) : []),
        ...(known.length < areas.length ? (['area'] as const) : []),
      ],
    }
  }
  const area = sumOf(known)
  return {
    stepId: step.id,
    litres: over(area, times(fractionOf(spread), fractionOf(transfer))),
    area,
    spreadSquareMetresPerLitre: spread,
    transfer,
    thinningPercent: step.thinningPercent ?? 0,
    sittings: Math.max(
      1,
      ...step.surfaces.map(({ surfaceId }) => sittingsOf(surfaceId)),
    ),
  }
}

function shareUsed(method: Method | undefined): number | undefined {
  return method === 'wipe' ? 1 : transferShare(method)
}
