import type { Piece, Step } from '#core/journal/journal'

/** With more pieces than this there are too many orders to try. */
const mostPieces = 3

/**
 * The orders, other than that of the work, in which a video may tell of pieces that were worked on by turns: one piece after
 * the other, each from beginning to end. A step on several pieces is told of with the first of them.
 *
 * @param steps in the order they were done
 * @returns none where there is one piece, too many, or the work itself went piece by piece
 */
export function tellingOrders(
  steps: readonly Step[],
  pieces: readonly Pick<Piece, 'surfaces'>[],
): readonly (readonly Step[])[] {
  const ofPiece = pieces
    .map((_, index) =>
      steps.filter((step) => firstPiece(step, pieces) === index),
    )
    .filter((own) => own.length > 0)
  if (ofPiece.length < 2 || ofPiece.length > mostPieces) return []
  return permutations(ofPiece)
    .map((groups) => groups.flat())
    .filter((order) => order.some((step, index) => step !== steps[index]))
}

function firstPiece(
  { surfaces }: Step,
  pieces: readonly Pick<Piece, 'surfaces'>[],
): number {
  const found = pieces.findIndex((piece) =>
    piece.surfaces.some(({ id }) =>
      surfaces.some(({ surfaceId }) => surfaceId === id),
    ),
  )
  return Math.max(0, found)
}

function permutations<One>(all: readonly One[]): readonly (readonly One[])[] {
  return all.length < 2
    ? [all]
    : all.flatMap((first, index) =>
        permutations(all.toSpliced(index, 1)).map((rest) => [first, ...rest]),
      )
}
