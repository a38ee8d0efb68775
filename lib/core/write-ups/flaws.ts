import type { Journal, Photo, Piece } from '#core/journal/journal'
import { plainText } from '#core/write-ups/plain-text'

/** Something a buyer must be told, and the photos that show it. */
export type Flaw = {
  readonly words: string
  readonly photoIds: readonly string[]
}

const nothing =
  /^(none|nothing|no|no (flaws?|marks?|damage)|none found|nothing found|n\/a)[.!]?$/i

/** The flaws of a piece: each line that its owner wrote, and each flaw that a photo of it was taken to show. */
export function flawsOf(
  piece: Piece,
  { pieces, photos }: Journal,
): readonly Flaw[] {
  const typed = flawLines(piece).filter((line) => !nothing.test(line))
  const shown = photos.filter((photo) => shows(photo, piece, pieces))
  return flawsFrom(typed, shown)
}

/** The flaws that photos were taken to show of which nobody said on which of several pieces they are. */
export function unplacedFlaws({ pieces, photos }: Journal): readonly Flaw[] {
  return flawsFrom(
    [],
    photos.filter(
      (photo) => !pieces.some((piece) => shows(photo, piece, pieces)),
    ),
  )
}

function flawsFrom(
  typed: readonly string[],
  photos: readonly Photo[],
): readonly Flaw[] {
  const shown = photos.filter(({ flaw }) => plainText(flaw ?? '') !== '')
  const words = distinctWords([
    ...typed,
    ...shown.map(({ flaw }) => plainText(flaw ?? '')),
  ])
  return words.map((one) => ({
    words: one,
    photoIds: shown
      .filter(({ flaw }) => sameWords(plainText(flaw ?? ''), one))
      .map(({ id }) => id),
  }))
}

/** Whether the owner looked for flaws and says there are none. */
export function isFlawless(piece: Piece, journal: Journal): boolean {
  const lines = flawLines(piece)
  return (
    lines.length > 0 &&
    lines.every((line) => nothing.test(line)) &&
    flawsOf(piece, journal).length === 0
  )
}

function flawLines({ flaws = '' }: Piece): readonly string[] {
  return flaws
    .split(/\r?\n/)
    .map((line) => plainText(line.replace(/^\s*[-*•]\s+/, '')))
    .filter((line) => line !== '')
}

/** A photo with no surface shows the one piece of its job, and none of several. */
function shows(photo: Photo, piece: Piece, pieces: readonly Piece[]): boolean {
  return photo.surfaceIds.length === 0
    ? pieces.length === 1
    : piece.surfaces.some(({ id }) => photo.surfaceIds.includes(id))
}

function sameWords(one: string, other: string): boolean {
  const bare = (words: string) => words.toLowerCase().replace(/[.!\s]+$/, '')
  return bare(one) === bare(other)
}

function distinctWords(words: readonly string[]): readonly string[] {
  return words.filter(
    (one, index) => words.findIndex((other) => sameWords(one, other)) === index,
  )
}
