import type { StepKind } from '#core/journal/vocabulary'
import { unreachable } from '#core/result'
import type { ProductCategory } from '#core/shelf/product'

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
