import type { MaterialPurpose } from '#core/materials/purpose'
import type { Product } from '#core/shelf/product'
import { capitalised } from '#core/write-ups/english-words'
import { midSentence } from '#core/write-ups/english-mid-sentence'
import { plainText } from '#core/write-ups/plain-text'
import { colourOf, sheenOf } from '#core/write-ups/surface-work'

/** The words as they stand inside a sentence, or what to say where the owner typed only blanks. */
export function orElse(words: string, otherwise: string): string {
  const text = midSentence(words.replace(/^[\s,]+|[\s,]+$/g, ''))
  return text === '' ? otherwise : text
}

/** The whole name of a product, inside a sentence. */
export function productName(name: string): string {
  return orElse(plainText(name), 'unnamed product')
}

/** Whether words already say a thing; `primer` is said by "bonding primer, white", and `water-based` by "waterborne enamel". */
export function isSaidBy(name: string, thing: string): boolean {
  const said = plainText(name).toLowerCase()
  if (thing === 'water-based') return /\bwater(borne|[- ]based)?\b/.test(said)
  if (thing === 'oil-based') return /\boil\b/.test(said)
  return said.includes(thing.toLowerCase())
}

/** A product by its whole name, and what it was for where the name does not say it: "Aerosol metallic, brass (hardware finish)". */
export function productAndPurpose(
  name: string,
  purposes: readonly MaterialPurpose[],
): string {
  const words = capitalised(productName(name))
  return purposes.every((purpose) => isSaidBy(name, purpose))
    ? words
    : `${words} (${purposes.join(', ')})`
}

/** The product's name without what comes after its comma. */
export function labelledName(product: string): string {
  const name = plainText(product)
  const [base = ''] = name.split(',')
  return productName(base.trim() === '' ? name : base)
}

/** A product by what it is, its colour and its sheen: "waterborne enamel in deep teal", "waterborne clear (satin)". */
export function productWords(
  product: Pick<Product, 'name'>,
  purpose: MaterialPurpose,
): string {
  const name = plainText(product.name)
  const written = colourOf(product)
  const colour = written === undefined ? undefined : midSentence(written)
  const before = midSentence((name.split(',')[0] ?? '').trim())
  if (before === '') return productName(name)
  const sheen = sheenOf(product)
  const shine =
    sheen === undefined ||
    `${before} ${colour ?? ''}`.toLowerCase().includes(sheen)
      ? ''
      : ` (${sheen})`
  if (colour === undefined) return before + shine
  return ['paint', 'stain', 'glaze', 'finish', 'hardware finish'].includes(
    purpose,
  )
    ? `${before} in ${colour}${shine}`
    : `${before} (${colour})${shine}`
}
