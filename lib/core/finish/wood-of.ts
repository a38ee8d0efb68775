import { mentions } from '#core/finish/mentions'
import type { Piece } from '#core/journal/journal'

/** What the wood of a piece asks of its finish, as far as the owner has named it. */
export type Wood = {
  /** Its tannin turns a waterborne coat yellow or brown. */
  readonly tannin: string | undefined
  /** Its knots weep resin through paint. */
  readonly knots: string | undefined
  /** It takes stain unevenly. */
  readonly blotches: string | undefined
  /** Its face is a thin sheet. */
  readonly isVeneer: boolean
}

// Common practice, no source: which woods bleed, weep and blotch.
const tannin = /oak|mahogany|walnut|cedar|chestnut|redwood|sapele|merbau|iroko/
const knots = /pine|knotty|deal|spruce|larch|fir/
const blotches = /pine|birch|maple|cherry|alder|poplar|fir|spruce|aspen|deal/

/** What is known of the wood of a piece from what the owner says it is made of. */
export function woodOf(piece: Pick<Piece, 'material'>): Wood {
  const { material } = piece
  return {
    tannin: firstNamed(material, tannin),
    knots: firstNamed(material, knots),
    blotches: firstNamed(material, blotches),
    isVeneer: mentions(material, /veneer|veneered|veneers/),
  }
}

function firstNamed(
  material: string | undefined,
  woods: RegExp,
): string | undefined {
  return woods.source
    .split('|')
    .filter((wood) => mentions(material, new RegExp(wood)))
    .sort((one, other) => placeOf(material, one) - placeOf(material, other))[0]
}

function placeOf(material: string | undefined, wood: string): number {
  return material?.toLowerCase().indexOf(wood) ?? -1
}
