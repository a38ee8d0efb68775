import { countsCoats } from '#core/journal/coats'
import type { Journal, Piece, Step, Surface } from '#core/journal/journal'
import type { Method } from '#core/journal/vocabulary'
import { litresOf, shareOfPack, sumAmounts } from '#core/materials/amounts'
import type {
  AmountEstimate,
  EstimateNeed,
} from '#core/materials/estimate-amount'
import { type ProductUse, productUses } from '#core/materials/product-uses'
import { type MaterialPurpose, purposeOfUse } from '#core/materials/purpose'
import { stepsInOrder } from '#core/materials/steps-in-order'
import {
  type Fraction,
  fractionOf,
  over,
  roundHalfAway,
  sumOf,
  times,
} from '#core/money/fraction'
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
  /** What those steps are reckoned to have used; null where none could be reckoned. */
  readonly estimate: {
    readonly uses: readonly AmountEstimate[]
    /** Added up, exactly. */
    readonly litres: Fraction
    /** The price of it, in minor units, rounded once; null when the pack or its price is not known. */
    readonly costMinor: number | null
  } | null
  /** What must be known to reckon the rest. */
  readonly needs: readonly EstimateNeed[]
  /** The price of what was written down; null when the pack, its price or the amount is not known. */
  readonly cost: {
    /** Minor units, rounded once, half away from zero. */
    readonly minor: number
    /** False when some of what was used has no amount that can be held against the pack. */
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
  /** The costs of what was written down added up, in minor units; null when there are none. */
  readonly costMinor: number | null
  /** The costs of what was reckoned added up, in minor units; null when there are none. */
  readonly estimatedCostMinor: number | null
}

/**
 * The materials of a job. What was written down and what is reckoned in its place are kept apart; what can be neither is
 * null.
 */
export function listMaterials(journal: Journal): MaterialsList {
  const steps = stepsInOrder(journal).map((timed) => timed.step)
  const used = new Map<string, ProductUse[]>()
  for (const use of productUses(journal)) {
    used.set(use.product.id, [...(used.get(use.product.id) ?? []), use])
  }
  const materials = [...used.values()].flatMap((uses) => {
    const product = uses[0]?.product
    return product ? [materialOf(product, uses, journal.pieces)] : []
  })
  return {
    title: journal.job.title,
    materials,
    sanded: sandedPlaces(steps, journal.pieces),
    // The sums of the printed costs, so that a reader who adds them up finds the same.
    costMinor: sumOrNull(
      materials.flatMap(({ cost }) => (cost ? [cost.minor] : [])),
    ),
    estimatedCostMinor: sumOrNull(
      materials.flatMap(({ estimate }) => estimate?.costMinor ?? []),
    ),
  }
}

function sumOrNull(costs: readonly number[]): number | null {
  return costs.length === 0 ? null : costs.reduce((sum, cost) => sum + cost, 0)
}

function materialOf(
  product: Product,
  uses: readonly ProductUse[],
  pieces: readonly Piece[],
): Material {
  const steps = uses.map((use) => use.step)
  const amounts = uses.flatMap(({ logged }) => logged ?? [])
  return {
    product: { id: product.id, name: product.name },
    purposes: distinct(steps.map((step) => purposeOfUse(step.kind, product))),
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
    estimate: estimateOf(product, uses),
    needs: distinct(uses.flatMap((use) => use.needs)),
    cost: costOf(product, amounts, steps.length),
    link: product.link ?? null,
  }
}

function costOf(
  product: Product,
  amounts: readonly Amount[],
  stepCount: number,
): Material['cost'] {
  const shares = amounts.flatMap((amount) => packShare(amount, product) ?? [])
  const minor = priceOf(shares, product)
  return minor === null
    ? null
    : { minor, complete: shares.length === stepCount }
}

function estimateOf(
  product: Product,
  uses: readonly ProductUse[],
): Material['estimate'] {
  const reckoned = uses.flatMap(({ estimate }) => estimate ?? [])
  if (reckoned.length === 0) return null
  const litres = sumOf(reckoned.map((one) => one.litres))
  const { pack, label } = product
  const packLitres =
    pack && litresOf(pack.amount, label.densityKilogramsPerLitre)
  return {
    uses: reckoned,
    litres,
    costMinor:
      packLitres === undefined || packLitres.numerator <= 0n
        ? null
        : priceOf([over(litres, packLitres)], product),
  }
}

/** What share of its pack an amount of a product is; undefined where the two cannot be held against each other. */
export function packShare(
  amount: Amount,
  { pack, label }: Pick<Product, 'pack' | 'label'>,
): Fraction | undefined {
  return pack && pack.amount.value > 0
    ? shareOfPack(amount, pack.amount, label.densityKilogramsPerLitre)
    : undefined
}

function priceOf(
  shares: readonly Fraction[],
  { pack }: Product,
): number | null {
  return pack === undefined || shares.length === 0
    ? null
    : Number(roundHalfAway(times(sumOf(shares), fractionOf(pack.priceMinor))))
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
