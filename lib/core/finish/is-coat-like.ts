import type { StepKind } from '#core/journal/vocabulary'

/** A step as it bears on one surface. */
export type SurfaceStep = {
  readonly kind: StepKind
  readonly productId?: string | undefined
  readonly coat?: number | undefined
}

const alwaysCoats: ReadonlySet<StepKind> = new Set<StepKind>([
  'prime',
  'coat',
  'stain',
  'condition',
  'glaze',
  'seal',
  'wax',
])

/** Coats only when a product was put on as a numbered coat: hardware may also just be taken off or refitted. */
const sometimesCoats: ReadonlySet<StepKind> = new Set<StepKind>([
  'hardware',
  'detail',
])

/** Whether a step puts on something that dries. */
export function isCoating(step: SurfaceStep): boolean {
  return (
    alwaysCoats.has(step.kind) ||
    (sometimesCoats.has(step.kind) &&
      step.productId !== undefined &&
      step.coat !== undefined)
  )
}

/** Whether a surface must dry after a step: a coat, or the rinse that ends stripping. */
export function isCoatLike(step: SurfaceStep): boolean {
  return step.kind === 'strip' || isCoating(step)
}
