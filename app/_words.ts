import type { Piece } from '#core/journal/journal'
import type { PhotoRole, StepKind } from '#core/journal/vocabulary'
import { englishStepKinds } from '#core/write-ups/english-steps'

/** Several things in a row, as one says them: a, b and c. */
export function listOf(things: readonly string[]): string {
  if (things.length < 2) return things.join('')
  return `${things.slice(0, -1).join(', ')} and ${things.at(-1) ?? ''}`
}

/** A kind of step, as a label. */
export function kindName(kind: StepKind): string {
  return englishStepKinds[kind]
}

/** A step on a surface, as a label: `Paint, coat 2`, `Prime, coat 1`, `Scuff`. */
export function stepName(kind: StepKind, coat: number | undefined): string {
  if (coat === undefined) return englishStepKinds[kind]
  return `${englishStepKinds[kind]}, coat ${coat}`
}

const roleWords: Record<PhotoRole, string> = {
  before: 'Before',
  progress: 'Progress',
  after: 'After',
}

/** A photo's role, as a label. */
export function roleName(role: PhotoRole): string {
  return roleWords[role]
}

/**
 * Surfaces as a list: each piece is named once, and not at all where the job has only one: `sideboard body and top, bench
 * body`.
 */
export function surfacesWords(
  pieces: readonly Pick<Piece, 'name' | 'surfaces'>[],
  surfaceIds: readonly string[],
): string {
  return pieces
    .flatMap((piece) => {
      const names = piece.surfaces
        .filter((surface) => surfaceIds.includes(surface.id))
        .map((surface) => surface.name)
      if (names.length === 0) return []
      return pieces.length > 1
        ? `${piece.name} ${listOf(names)}`
        : listOf(names)
    })
    .join(', ')
}
