import type { Journal, Photo, Piece } from '#core/journal/journal'

/** What a photo shows, as far as it was said. */
export type SeenInPhoto = {
  readonly pieces: readonly Piece[]
  /** Whether the surfaces of these pieces are the ones to be seen: else nobody said what they look like here. */
  readonly isKnown: boolean
}

// What the views that are of a part show. Common practice, no source.
const partOfView: ReadonlyMap<string, RegExp> = new Map([
  ['top', /\b(top|seat|lid)\b/i],
  [
    'hardware',
    /\b(hardware|handles?|knobs?|pulls?|hinges?|locks?|castors?)\b/i,
  ],
  ['inside', /\b(inside|interior|drawers?(?! front)|shel(f|ves)|lining)\b/i],
])

/**
 * The pieces with the surfaces that a photo shows: those that were said, or those that its view is of. The front shows
 * all; a photo without view or surfaces may show anything.
 */
export function seenInPhoto(
  { pieces }: Pick<Journal, 'pieces'>,
  { surfaceIds, view }: Pick<Photo, 'surfaceIds' | 'view'>,
): SeenInPhoto {
  const only = (isShown: (surface: Piece['surfaces'][number]) => boolean) =>
    pieces
      .map((piece) => ({ ...piece, surfaces: piece.surfaces.filter(isShown) }))
      .filter(({ surfaces }) => surfaces.length > 0)
  const said = only(({ id }) => surfaceIds.includes(id))
  if (said.length > 0) return { pieces: said, isKnown: true }
  const part = partOfView.get(view ?? '')
  if (part === undefined) return { pieces, isKnown: view !== undefined }
  const meant = only(({ name }) => part.test(name))
  return meant.length > 0
    ? { pieces: meant, isKnown: true }
    : { pieces, isKnown: false }
}
