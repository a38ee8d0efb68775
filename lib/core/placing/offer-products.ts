import type { Journal, Step } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Product } from '#core/shelf/product'
import { suitsStep } from '#core/shelf/suits-step'

/** More than these are no longer chosen at a glance. */
const mostOffered = 4

/**
 * The products that a new step of this kind on this piece was likely done with: those that its steps of this kind were
 * done with, the last one first, else what stands on the shelf for that. Never more than a question: what was used is for
 * its owner to say.
 *
 * @param done the steps of the journal, in the order in which they were done
 * @param shelf in the order in which it is shown
 * @returns ids, at most 4
 */
export function offerProducts(
  { pieces }: Pick<Journal, 'pieces'>,
  done: readonly Step[],
  shelf: readonly Pick<Product, 'id' | 'category'>[],
  kind: StepKind,
  pieceId: string,
): readonly string[] {
  const piece = pieces.find((one) => one.id === pieceId)
  const own = new Set(piece?.surfaces.map((surface) => surface.id))
  const isOwn = (step: Step) =>
    step.kind === kind && step.surfaces.some((on) => own.has(on.surfaceId))
  const there = new Set(shelf.map((product) => product.id))
  const used = done
    .flatMap((step) => (isOwn(step) ? (step.productId ?? []) : []))
    .filter((id) => there.has(id))
    .toReversed()
  const usual = shelf
    .filter(({ category }) => suitsStep(category, kind))
    .map((product) => product.id)
  return [...new Set(used.length > 0 ? used : usual)].slice(0, mostOffered)
}
