import type { Journal, Photo, Piece } from '#core/journal/journal'
import { plainView } from '#core/pairs/pair-photo'

/** What a pair is called. */
export type PairName = {
  readonly name: string
  /** The view that was typed; absent where nobody did, and the name is a guess. */
  readonly view?: string
  /** What the view may be called, from what the photos are said to show; absent where that tells nothing of its own. */
  readonly guess?: string
}

/** Surfaces that are a view of their own. Common practice, no source. */
const viewsOfSurfaces: Readonly<Record<string, string>> = {
  hardware: 'hardware',
  top: 'top',
  interior: 'inside',
  drawers: 'inside',
}

/**
 * What the pairs of a job are called, each by a name of its own: by the view typed on the photos, else by the surfaces that
 * both are said to show, else by the piece; where that names two alike, with a number.
 *
 * @returns as many as there are pairs, in their order
 */
export function pairNames(
  journal: Pick<Journal, 'photos' | 'pieces'>,
  pairs: readonly {
    readonly before: string
    readonly after: string
    readonly view?: string
  }[],
): readonly PairName[] {
  const known = pairs.map(({ before, after, view }) => {
    const photos = [before, after].flatMap(
      (id) => journal.photos.find((photo) => photo.id === id) ?? [],
    )
    const typed = viewOf(photos) ?? view
    const guess = guessedView(photos, journal.pieces)
    return {
      ...(typed !== undefined && { view: typed }),
      guess,
      name: typed ?? guess ?? pieceShown(photos, journal.pieces) ?? 'pair',
    }
  })
  const alike = (name: string) => known.filter((one) => one.name === name)
  return known.map(({ name, view, guess }, index) => {
    const isAlone = alike(name).length === 1
    const nth = known.slice(0, index).filter((one) => one.name === name).length
    return {
      name: isAlone ? name : `${name} ${nth + 1}`,
      ...(view !== undefined && { view }),
      // Two views of one name would be taken for one view.
      ...(guess !== undefined && isAlone && { guess }),
    }
  })
}

/** The view that is typed on the photos of a pair: on both alike, or on one alone. */
function viewOf(photos: readonly Photo[]): string | undefined {
  const typed = photos.filter((photo) => plainView(photo) !== '')
  return new Set(typed.map(plainView)).size === 1 ? typed[0]?.view : undefined
}

function guessedView(
  photos: readonly Photo[],
  pieces: readonly Piece[],
): string | undefined {
  const shown = pieces
    .flatMap(({ surfaces }) => surfaces)
    .filter(({ id }) => photos.every((photo) => photo.surfaceIds.includes(id)))
    .map(({ name }) => name.toLowerCase())
  const [one, other] = shown
  switch (shown.length) {
    case 1:
      return one === undefined ? undefined : (viewsOfSurfaces[one] ?? one)
    case 2:
      return `${one ?? ''} and ${other ?? ''}`
    default:
      return undefined
  }
}

function pieceShown(
  photos: readonly Photo[],
  pieces: readonly Piece[],
): string | undefined {
  const shown = pieces.filter(({ surfaces }) =>
    photos.some(({ surfaceIds }) =>
      surfaces.some(({ id }) => surfaceIds.includes(id)),
    ),
  )
  const [only, ...others] = shown.length > 0 ? shown : pieces
  return others.length === 0 ? only?.name : undefined
}
