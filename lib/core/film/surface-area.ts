import type { Piece, Surface } from '#core/journal/journal'

const squareMillimetresPerSquareMetre = 1_000_000

/** Furniture that is a box on the outside: its sides, front and top are rectangles of its outer size. */
const boxKinds =
  /\b(sideboard|chest|dresser|drawers|cabinet|cupboard|wardrobe|armoire|bookcase|nightstand|bedside|tallboy|highboy|bureau|box|trunk|coffer|credenza|buffet|console)\b/i
/** Boxes that stand free, so that the back is finished too. */
const freeStanding = /\b(blanket box|toy box|box|trunk|coffer|blanket chest)\b/i

/**
 * The area of a surface: as the owner measured it, else that of box furniture from the outer size of its piece.
 *
 * A body is two sides and the front, and the top where the piece has no top of its own; where doors or drawer fronts
 * are surfaces of their own the front is theirs. A box or trunk counts its back too, other pieces do not.
 *
 * @returns m²; undefined where sizes are missing, or the name and the kind of the piece do not tell
 * Source: plane geometry; what belongs to a body: common practice, no source. Mouldings and panels add 10 to 20 %.
 */
export function surfaceArea(
  piece: Piece,
  surface: Pick<Surface, 'name' | 'areaSquareMetres'>,
): number | undefined {
  if (surface.areaSquareMetres !== undefined) return surface.areaSquareMetres
  const {
    widthMillimetres: width,
    depthMillimetres: depth,
    heightMillimetres: height,
  } = piece
  const name = surface.name.trim().toLowerCase()
  if (width === undefined || depth === undefined) return undefined
  if (isTop(name)) return (width * depth) / squareMillimetresPerSquareMetre
  if (height === undefined || !boxKinds.test(piece.kind)) return undefined
  const area = boxArea(name, piece, width, depth, height)
  return area === undefined ? undefined : area / squareMillimetresPerSquareMetre
}

/** Gives the area of a surface of these pieces by its id, as `surfaceArea` does. Nothing is worked out before it is asked for. */
export function surfaceAreas(
  pieces: readonly Piece[],
): (surfaceId: string) => number | undefined {
  let areas: Map<string, number | undefined> | undefined
  return (surfaceId) => {
    areas ??= new Map(
      pieces.flatMap((piece) =>
        piece.surfaces.map((surface) => [
          surface.id,
          surfaceArea(piece, surface),
        ]),
      ),
    )
    return areas.get(surfaceId)
  }
}

function boxArea(
  name: string,
  piece: Piece,
  width: number,
  depth: number,
  height: number,
): number | undefined {
  const names = piece.surfaces.map((one) => one.name.trim().toLowerCase())
  const fronts = names.filter(isFront)
  switch (name) {
    case 'body':
    case 'carcass':
    case 'case':
      return (
        2 * depth * height +
        (fronts.length === 0 ? width * height : 0) +
        (names.some(isTop) ? 0 : width * depth) +
        (freeStanding.test(piece.kind) ? width * height : 0)
      )
    case 'sides':
      return 2 * depth * height
    case 'front':
    case 'back':
      return width * height
    case 'underside':
      return width * depth
    case 'all':
    case 'whole':
      return 2 * (width * depth + width * height + depth * height)
    default:
      // Two kinds of fronts share the one front, in shares that nobody measured.
      return isFront(name) && fronts.length === 1 ? width * height : undefined
  }
}

function isTop(name: string): boolean {
  return name === 'top' || name === 'table top' || name === 'lid'
}

function isFront(name: string): boolean {
  return name === 'doors' || name === 'drawer fronts'
}
