import type { Purpose } from '#core/drying/dry-check'
import { type SurfaceStep, isCoating } from '#core/finish/is-coat-like'

/**
 * What a step asks of the coat below it; undefined when it asks nothing of it.
 *
 * Stripping asks nothing: it takes the coat off. Nor does the washing that belongs to stripping.
 */
export function purposeOf(
  later: SurfaceStep,
  earlier: SurfaceStep,
): Purpose | undefined {
  if (isCoating(later)) return 'recoat'
  if (later.kind === 'sand' || later.kind === 'scuff') return 'sand'
  if (later.kind === 'strip') return undefined
  if (later.kind === 'clean' && earlier.kind === 'strip') return undefined
  return 'handle'
}
