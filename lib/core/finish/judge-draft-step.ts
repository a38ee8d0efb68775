import { type RuleFinding, findingsIn } from '#core/finish/judge-finish'
import { nextCoat } from '#core/journal/coats'
import type { Journal, Step } from '#core/journal/journal'
import type { Units } from '#core/measures/units-of-measure'
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

const newStepId = 'draft'

/**
 * Where a step would pass over the rules of a sound finish if it were kept as it stands: what to show beside the form.
 *
 * Without a time it is taken to come after everything else, and no wait is held against it; give `startedAt` the
 * present to have waits judged as well.
 *
 * @param units what its sentences are written in
 */
export function judgeDraftStep(
  journal: Journal,
  draft: DraftStep,
  units: Units = 'metric',
): readonly RuleFinding[] {
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
  return findingsIn(
    {
      ...journal,
      steps: [...others, step],
      products: product === undefined ? products : [...products, product],
    },
    units,
    id,
  ).filter((finding) => finding.stepId === id)
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
