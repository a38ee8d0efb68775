import { countsCoats } from '#core/journal/coats'
import type { Journal, Piece, Step, Surface } from '#core/journal/journal'
import type { Method } from '#core/journal/vocabulary'
import { sameMeasure, shareOfPack, sumAmounts } from '#core/materials/amounts'
import { type MaterialPurpose, purposeOf } from '#core/materials/purpose'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { fractionOf, roundHalfAway, times } from '#core/money/fraction'
import type { Amount, Product } from '#core/shelf/product'

/** A surface that a material went on. */
export type MaterialPlace = {
  readonly piece: { readonly id: string; readonly name: string }
  readonly surface: Surface
}

/** A product and all that was done with it on a job. */
export type Material = {
  readonly product: { readonly id: string; readonly name: string }
  /** In order of use. */
  readonly purposes: readonly MaterialPurpose[]
  /** In the order of the pieces and their surfaces; `coats` is null for work that has none, such as cleaning. */
  readonly places: readonly (MaterialPlace & {
    readonly coats: number | null
  })[]
  readonly methods: readonly Method[]
  /** Parts added to 100 parts of product, each dilution once, in order of use. */
  readonly thinningPercents: readonly number[]
  /** P grades, in order of use. */
  readonly grits: readonly number[]
  /** Added up like with like; null when none was written down. */
  readonly amounts: readonly Amount[] | null
  /** How many steps used the product without an amount. */
  readonly stepsWithoutAmount: number
  /** The price of what was used; null when the pack, its price or the amount is not known. */
  readonly cost: {
    /** Minor units, rounded once, half away from zero. */
    readonly minor: number
    /** False when some of what was used has no amount in the measure of the pack. */
    readonly complete: boolean
  } | null
  readonly link: string | null
}

/** The sanding and scuffing that some surfaces share, in order; a grit is null where none was written down. */
export type SandedPlaces = {
  readonly places: readonly MaterialPlace[]
  readonly steps: readonly {
    readonly kind: 'sand' | 'scuff'
    readonly grit: number | null
  }[]
}

/** What went on a job. */
export type MaterialsList = {
  readonly title: string
  /** In order of first use. */
  readonly materials: readonly Material[]
  readonly sanded: readonly SandedPlaces[]
  /** The costs above added up, in minor units; null when there are none. */
  readonly costMinor: number | null
}

/**
 * The materials of a job, from its steps alone: nothing is estimated, what was not written down is null.
 */
export function listMaterials(journal: Journal): MaterialsList {
  const steps = stepsInOrder(journal).map((timed) => timed.step)
  const used = new Map<string, Step[]>()
  for (const step of steps) {
    if (step.productId === undefined) continue
    used.set(step.productId, [...(used.get(step.productId) ?? []), step])
  }
  const materials = [...used].flatMap(([id, using]) => {
    const product = journal.products.find((one) => one.id === id)
    return product ? [materialOf(product, using, journal.pieces)] : []
  })
  const costs = materials.flatMap(({ cost }) => (cost ? [cost.minor] : []))
  return {
    title: journal.job.title,
    materials,
    sanded: sandedPlaces(steps, journal.pieces),
    // The sum of the printed costs, so that a reader who adds them up finds the same.
    costMinor:
      costs.length === 0 ? null : costs.reduce((sum, cost) => sum + cost, 0),
  }
}

function materialOf(
  product: Product,
  steps: readonly Step[],
  pieces: readonly Piece[],
): Material {
  const amounts = steps.flatMap(({ amount }) => (amount ? [amount] : []))
  return {
    product: { id: product.id, name: product.name },
    purposes: distinct(
      steps.map((step) => purposeOf(step.kind, product.category)),
    ),
    places: allPlaces(pieces).flatMap((place) => {
      const on = steps.filter((step) => touches(step, place.surface))
      if (on.length === 0) return []
      return [{ ...place, coats: coatsOn(place.surface, on) }]
    }),
    methods: distinct(steps.flatMap(({ method }) => method ?? [])),
    thinningPercents: distinct(
      steps.flatMap(({ thinningPercent }) => thinningPercent ?? []),
    ).filter((percent) => percent > 0),
    grits: distinct(steps.flatMap(({ grit }) => grit ?? [])),
    amounts: amounts.length === 0 ? null : sumAmounts(amounts),
    stepsWithoutAmount: steps.length - amounts.length,
    cost: costOf(product, amounts, steps.length),
    link: product.link ?? null,
  }
}

function costOf(
  { pack }: Product,
  amounts: readonly Amount[],
  stepCount: number,
): Material['cost'] {
  if (!pack || !(pack.amount.value > 0)) return null
  const priced = amounts.filter((amount) =>
    sameMeasure(amount.unit, pack.amount.unit),
  )
  if (priced.length === 0) return null
  return {
    minor: Number(
      roundHalfAway(
        times(shareOfPack(priced, pack.amount), fractionOf(pack.priceMinor)),
      ),
    ),
    complete: priced.length === stepCount,
  }
}

function sandedPlaces(
  steps: readonly Step[],
  pieces: readonly Piece[],
): readonly SandedPlaces[] {
  const groups = new Map<string, SandedPlaces>()
  for (const place of allPlaces(pieces)) {
    const sanding = steps.flatMap((step) =>
      (step.kind === 'sand' || step.kind === 'scuff') &&
      touches(step, place.surface)
        ? [{ kind: step.kind, grit: step.grit ?? null }]
        : [],
    )
    if (sanding.length === 0) continue
    const key = JSON.stringify(sanding)
    groups.set(key, {
      places: [...(groups.get(key)?.places ?? []), place],
      steps: sanding,
    })
  }
  return [...groups.values()]
}

function allPlaces(pieces: readonly Piece[]): readonly MaterialPlace[] {
  return pieces.flatMap(({ id, name, surfaces }) =>
    surfaces.map((surface) => ({ piece: { id, name }, surface })),
  )
}

/** Two steps of one kind that carry the same number are two sittings of one coat. */
function coatsOn(surface: Surface, steps: readonly Step[]): number | null {
  const coats = steps
    .filter((step) => countsCoats(step.kind))
    .map(({ id, kind, surfaces }) => {
      const number = surfaces.find((on) => on.surfaceId === surface.id)?.coat
      return number === undefined ? id : `${kind} ${number}`
    })
  return coats.length === 0 ? null : new Set(coats).size
}

function touches(step: Step, surface: Surface): boolean {
  return step.surfaces.some((on) => on.surfaceId === surface.id)
}

function distinct<T>(values: readonly T[]): readonly T[] {
  return [...new Set(values)]
}
