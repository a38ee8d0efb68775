import type { Step } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'

const countedKinds: ReadonlySet<StepKind> = new Set([
  'condition',
  'prime',
  'coat',
  'stain',
  'glaze',
  'seal',
  'wax',
  'hardware',
])

/** Whether the coats of this kind are numbered on each surface. */
export function countsCoats(kind: StepKind): boolean {
  return countedKinds.has(kind)
}

/**
 * Whether a step of this kind, with or without a product, lays down a coat that is numbered: taking hardware off or
 * putting it back does not, finishing it does.
 */
export function laysFilm(
  kind: StepKind,
  productId: string | undefined,
): boolean {
  return countsCoats(kind) && (kind !== 'hardware' || productId !== undefined)
}

/**
 * The number that the next coat of this kind on this surface would have: one more than the highest so far.
 *
 * @returns from 1; undefined for a kind whose coats are not numbered
 */
export function nextCoat(
  steps: readonly Step[],
  surfaceId: string,
  kind: StepKind,
): number | undefined {
  if (!countsCoats(kind)) return undefined
  const numbers = steps
    .filter((step) => step.kind === kind)
    .flatMap((step) => step.surfaces)
    .filter((on) => on.surfaceId === surfaceId)
    .map((on) => on.coat ?? 0)
  return Math.max(0, ...numbers) + 1
}
