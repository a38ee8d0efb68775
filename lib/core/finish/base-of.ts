import type { Chemistry, Product } from '#core/shelf/product'

/** What thins and carries a product, which decides what it bites into and what shrugs it off. */
export type Base = 'water' | 'oil' | 'alcohol' | 'lacquer' | 'wax'

const bases: Readonly<Partial<Record<Chemistry, Base>>> = {
  'waterborne-acrylic': 'water',
  'waterborne-alkyd': 'water',
  'water-stain': 'water',
  'oil-alkyd': 'oil',
  'oil-stain': 'oil',
  'gel-stain': 'oil',
  shellac: 'alcohol',
  lacquer: 'lacquer',
  wax: 'wax',
}

/** The base of a product; undefined where its chemistry does not tell, as with an aerosol. */
export function baseOf(product: Product | undefined): Base | undefined {
  return product === undefined ? undefined : bases[product.chemistry]
}
