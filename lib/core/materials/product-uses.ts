import { surfaceAreas } from '#core/film/surface-area'
import type { Journal, Piece, Step } from '#core/journal/journal'
import {
  type AmountEstimate,
  type EstimateNeed,
  estimateAmount,
} from '#core/materials/estimate-amount'
import { loggedAmount } from '#core/materials/logged-amount'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { type Fraction, fractionOf, sumOf } from '#core/money/fraction'
import type { Amount, Product } from '#core/shelf/product'

/** One step's use of a product: how much was written down, else how much is reckoned, else what is missing for it. */
export type ProductUse = {
  readonly step: Step
  readonly product: Product
  readonly logged?: Amount
  readonly estimate?: AmountEstimate
  readonly needs: readonly EstimateNeed[]
}

/** Every use of a product on a job, in the order it happened. */
export function productUses(journal: Journal): readonly ProductUse[] {
  const products = new Map(journal.products.map((one) => [one.id, one]))
  const areas = surfaceAreas(journal.pieces)
  const sittings = sittingsOn(journal.steps)
  return stepsInOrder(journal).flatMap(({ step }): readonly ProductUse[] => {
    const product = products.get(step.productId ?? '')
    if (product === undefined) return []
    const logged = loggedAmount(step)
    if (logged !== undefined) return [{ step, product, logged, needs: [] }]
    const reckoned = estimateAmount(
      step,
      product,
      areas,
      (surfaceId) => sittings.get(coatKey(step, surfaceId)) ?? 1,
    )
    if (reckoned === undefined) return [{ step, product, needs: [] }]
    return 'needs' in reckoned
      ? [{ step, product, needs: reckoned.needs }]
      : [{ step, product, estimate: reckoned, needs: [] }]
  })
}

/** In how many steps each coat that carries a number was laid on. */
function sittingsOn(steps: readonly Step[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const step of steps) {
    for (const { surfaceId, coat } of step.surfaces) {
      if (coat === undefined) continue
      const key = coatKey(step, surfaceId)
      counts.set(key, (counts.get(key) ?? 0) + 1)
    }
  }
  return counts
}

function coatKey(step: Step, surfaceId: string): string {
  const coat = step.surfaces.find((on) => on.surfaceId === surfaceId)?.coat
  return coat === undefined
    ? step.id
    : JSON.stringify([step.kind, step.productId, surfaceId, coat])
}

/**
 * How a step's work or material is spread over the pieces of its job: by the area of its surfaces where all are known,
 * else the same for each piece that it touches.
 *
 * @returns a weight for each piece, in their order; all zero where the step touches none
 */
export function pieceWeights(
  step: Pick<Step, 'surfaces'>,
  pieces: readonly Piece[],
  areaOfSurface: (surfaceId: string) => number | undefined,
): readonly Fraction[] {
  const touched = pieces.map((piece) =>
    step.surfaces.filter((on) =>
      piece.surfaces.some((surface) => surface.id === on.surfaceId),
    ),
  )
  const areas = touched.map((surfaces) =>
    surfaces.map(({ surfaceId }) => areaOfSurface(surfaceId)),
  )
  return areas.flat().every((area) => area !== undefined && area > 0)
    ? areas.map((own) => sumOf(own.map((area) => fractionOf(area ?? 0))))
    : touched.map((own) => fractionOf(own.length > 0 ? 1 : 0))
}
