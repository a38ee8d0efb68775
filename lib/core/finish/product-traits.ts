import { mentions } from '#core/finish/mentions'
import type { Product } from '#core/shelf/product'

/** Whether a product holds back tannin, resin and old stain: shellac does; of others only one that is named for it. */
export function blocksStains(product: Product | undefined): boolean {
  return (
    product !== undefined &&
    (product.chemistry === 'shellac' ||
      mentions(
        product.name,
        /stain[- ]?block|stain[- ]?blocking|stain[- ]?blocker|tannin|knot|knotting|bleed/,
      ))
  )
}

/** Whether a product is a clear coat, whatever kind of step put it on. */
export function isClear(product: Product | undefined): boolean {
  return product?.category === 'clear coat'
}

/** Whether a paint is so pale that a stain would show through it: by its name alone. */
export function isPale(product: Product | undefined): boolean {
  return (
    product?.category === 'paint' &&
    mentions(
      product.name,
      /white|off-white|cream|ivory|pale|pastel|light|linen|magnolia/,
    )
  )
}

/** Whether a paint is an enamel, which is made to stand alone: by its name, or as a waterborne alkyd. */
export function isEnamel(product: Product | undefined): boolean {
  return (
    product?.category === 'paint' &&
    (product.chemistry === 'waterborne-alkyd' ||
      mentions(product.name, /enamel/))
  )
}

/** Whether a product dries by taking up oxygen, as linseed oil does: rags wet with it can heat by themselves. */
export function driesByOil(product: Product | undefined): boolean {
  return isOilStain(product) || product?.chemistry === 'oil-alkyd'
}

/** Whether a product is a stain of oil, which is wiped off again with rags whatever put it on. */
export function isOilStain(product: Product | undefined): boolean {
  return (
    product?.chemistry === 'oil-stain' || product?.chemistry === 'gel-stain'
  )
}
