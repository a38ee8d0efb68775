import type { Piece } from '#core/journal/journal'

// The height from which a clothing storage unit is one: 27 in, 16 CFR 1261 (ASTM F2057-23).
const tipOverMillimetres = 686

// Tables and seats with a drawer are wide and low for their weight; the law leaves office and dining furniture out too.
const lowAndWide = /\b(desk|table|bench|stool|chair|settle)s?\b/i

const storage =
  /\b(chests? of drawers|drawers|drawer unit|dresser|wardrobe|armoire|tallboy|highboy|chiffonier|bureau|linen press|cupboard|sideboard|cabinet)\b/i

/**
 * Whether a buyer should be told to fix this piece to the wall: it stores things behind drawers or doors
 * and is at least 686 mm high, or nobody has measured it.
 */
export function tipsOver({
  kind,
  surfaces,
  heightMillimetres,
}: Piece): boolean {
  const stores =
    storage.test(kind) ||
    (!lowAndWide.test(kind) &&
      surfaces.some(({ name }) => /\b(drawers?|doors?)\b/i.test(name)))
  return (
    stores &&
    (heightMillimetres === undefined || heightMillimetres >= tipOverMillimetres)
  )
}
