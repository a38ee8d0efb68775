import type { StepKind } from '#core/journal/vocabulary'
import type { ProductCategory } from '#core/shelf/product'

const usual: Readonly<Record<StepKind, readonly ProductCategory[]>> = {
  clean: ['cleaner'],
  repair: ['filler', 'adhesive'],
  strip: ['stripper'],
  sand: ['abrasive'],
  scuff: ['abrasive'],
  condition: ['conditioner'],
  prime: ['primer'],
  coat: ['paint', 'clear coat'],
  stain: ['stain'],
  glaze: ['glaze'],
  seal: ['clear coat'],
  wax: ['wax'],
  hardware: ['hardware finish', 'primer', 'cleaner'],
  liner: ['paper', 'adhesive'],
  detail: ['paint', 'stain', 'wax'],
  assemble: ['adhesive'],
}

/**
 * Whether a product of this category is what a step of this kind usually takes. It orders a list and forbids nothing.
 *
 * Common practice, no source.
 */
export function suitsStep(category: ProductCategory, kind: StepKind): boolean {
  return usual[kind].includes(category)
}

const wetCategories: readonly ProductCategory[] = [
  'primer',
  'paint',
  'stain',
  'conditioner',
  'clear coat',
  'glaze',
  'wax',
  'filler',
  'adhesive',
  'hardware finish',
  'other',
]

/** Whether a product of this category stays and dries, so that how it dries must be known. */
export function driesOn(category: ProductCategory): boolean {
  return wetCategories.includes(category)
}
