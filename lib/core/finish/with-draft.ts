import { nextCoat } from '#core/journal/coats'
import type { Journal, Step } from '#core/journal/journal'
import type { Product } from '#core/shelf/product'
import { type Instant, instant } from '#core/units'

/** A step as it stands in a form, not kept yet. */
export type DraftStep = Pick<
  Step,
  | 'kind'
  | 'surfaces'
  | 'method'
  | 'thinningPercent'
  | 'grit'
  | 'amount'
  | 'note'
  | 'startedAt'
  | 'finishedAt'
> & {
  readonly product?: Product
  /** The step it changes, when it is not a new one. */
  readonly id?: string
  readonly photoIds?: readonly string[]
}

/** The id that a new step has until it is kept. */
const newStepId = 'draft'

/**
 * The journal as it would be if a draft were kept as it stands, with the id of its step. A draft without a time comes after
 * everything else.
 */
export function withDraft(
  journal: Journal,
  draft: DraftStep,
): { readonly journal: Journal; readonly stepId: string } {
  const { product, id = newStepId, photoIds = [], ...told } = draft
  const others = journal.steps.filter((one) => one.id !== id)
  const kept = journal.steps.find((one) => one.id === id)
  const step: Step = {
    ...told,
    id,
    photoIds,
    surfaces: told.surfaces.map((on) =>
      numbered(on, told.kind, product, others),
    ),
    ...(product !== undefined && { productId: product.id }),
    createdAt: kept?.createdAt ?? afterAll(journal),
  }
  const products = journal.products.filter((one) => one.id !== product?.id)
  return {
    journal: {
      ...journal,
      steps: [...others, step],
      products: product === undefined ? products : [...products, product],
    },
    stepId: id,
  }
}

/** A coat gets its number when it is kept: until then the next one stands in. */
function numbered(
  on: Step['surfaces'][number],
  kind: Step['kind'],
  product: Product | undefined,
  others: readonly Step[],
): Step['surfaces'][number] {
  if (on.coat !== undefined || product === undefined) return on
  const coat = nextCoat(others, on.surfaceId, kind)
  return coat === undefined ? on : { ...on, coat }
}

function afterAll(journal: Journal): Instant {
  const moments = journal.steps.map((one) => one.createdAt)
  return instant(
    moments.reduce<number>(
      (latest, moment) => Math.max(latest, moment),
      journal.job.createdAt,
    ) + 1,
  )
}
