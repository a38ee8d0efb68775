import type { AmountUnit, ProductCategory } from '#core/shelf/product'
import { driesOn } from '#core/shelf/suits-step'

/**
 * How much of a label matters for a product of this category: everything where it stays and dries, how long to wait and
 * how far it goes where it is only wet for a while, nothing where it is no liquid.
 */
export type AskedOfLabel = 'everything' | 'wait' | 'nothing'

const dry: readonly ProductCategory[] = ['abrasive', 'paper']

/** How much of a label is worth asking for. Common practice, no source. */
export function askedOfLabel(category: ProductCategory): AskedOfLabel {
  if (driesOn(category)) return 'everything'
  return dry.includes(category) ? 'nothing' : 'wait'
}

/** What packs of this category are usually counted in. Common practice, no source. */
export function usualPackUnit(category: ProductCategory): AmountUnit {
  if (category === 'abrasive') return 'sheet'
  return category === 'paper' ? 'roll' : 'ml'
}
