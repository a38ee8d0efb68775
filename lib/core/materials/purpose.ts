import type { StepKind } from '#core/journal/vocabulary'
import { unreachable } from '#core/result'
import type { Product, ProductCategory } from '#core/shelf/product'

/** What a product was used for on a job. */
export type MaterialPurpose =
  | 'cleaner'
  | 'repair'
  | 'stripper'
  | 'abrasive'
  | 'conditioner'
  | 'primer'
  | 'paint'
  | 'stain'
  | 'glaze'
  | 'sealer'
  | 'clear coat'
  | 'wax'
  | 'hardware finish'
  | 'polish'
  | 'liner'
  | 'detail'
  | 'assembly'
  | 'finish'

/** What a product of this category is for when a step of this kind uses it. */
export function purposeOf(
  kind: StepKind,
  category: ProductCategory | undefined,
): MaterialPurpose {
  switch (kind) {
    case 'clean':
      return 'cleaner'
    case 'repair':
      return 'repair'
    case 'strip':
      return 'stripper'
    case 'sand':
    case 'scuff':
      return 'abrasive'
    case 'condition':
      return 'conditioner'
    case 'prime':
      return 'primer'
    case 'stain':
      return 'stain'
    case 'glaze':
      return 'glaze'
    case 'wax':
      return 'wax'
    case 'liner':
      return 'liner'
    case 'detail':
      return 'detail'
    case 'assemble':
      return 'assembly'
    case 'hardware':
      return hardwarePurpose(category)
    case 'seal':
      return category === 'clear coat' || category === 'primer'
        ? purposeOf('coat', category)
        : 'sealer'
    case 'coat':
      return coatPurpose(category)
    default:
      return unreachable(kind)
  }
}

/** What a product is for when a step of this kind uses it; what brightens metal and leaves nothing on it is told by its name. */
export function purposeOfUse(
  kind: StepKind,
  product: Pick<Product, 'category' | 'name'>,
): MaterialPurpose {
  const does = kind === 'hardware' ? brightens(product) : undefined
  if (does === undefined) return purposeOf(kind, product.category)
  return does === 'polish' ? 'polish' : 'cleaner'
}

/** What a product of no category of its own does to metal by its name, where it leaves nothing on it. */
export function brightens({
  category,
  name,
}: Pick<Product, 'category' | 'name'>): 'polish' | 'clean' | undefined {
  if (category !== 'other') return undefined
  if (/\bpolish(es)?\b/i.test(name)) return 'polish'
  return /\b(cleaner|remover|dip)\b/i.test(name) ? 'clean' : undefined
}

function hardwarePurpose(
  category: ProductCategory | undefined,
): MaterialPurpose {
  switch (category) {
    case 'primer':
    case 'cleaner':
    case 'stripper':
    case 'abrasive':
      return category
    case 'filler':
    case 'adhesive':
      return 'repair'
    case 'paint':
    case 'stain':
    case 'glaze':
    case 'wax':
    case 'clear coat':
    case 'conditioner':
    case 'paper':
    case 'hardware finish':
    case 'other':
    case undefined:
      return 'hardware finish'
  }
}

function coatPurpose(category: ProductCategory | undefined): MaterialPurpose {
  switch (category) {
    case 'paint':
    case 'primer':
    case 'stain':
    case 'glaze':
    case 'wax':
    case 'clear coat':
    case 'conditioner':
      return category
    case 'cleaner':
    case 'filler':
    case 'adhesive':
    case 'stripper':
    case 'abrasive':
    case 'paper':
    case 'hardware finish':
    case 'other':
    case undefined:
      return 'finish'
  }
}
