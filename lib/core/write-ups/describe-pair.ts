import type { Journal, Photo } from '#core/journal/journal'
import { appearanceOf } from '#core/write-ups/appearance'
import { english } from '#core/write-ups/english'
import { firstThatFits } from '#core/write-ups/fit-to-limit'
import type { Language } from '#core/write-ups/language'
import { surfaceWork } from '#core/write-ups/surface-work'

/** Common practice, no source: about what a screen reader says in one breath. */
const characters = 125

/**
 * The text alternative of a before/after pair, for who cannot see it: the piece, the view, and what changed.
 *
 * Only surfaces that the after photo shows are spoken of; a photo with none is taken to show all.
 *
 * @returns one sentence of at most 125 characters, except where the name of the piece alone is longer:
 * then that much of it as fits in whole words
 * Source: WCAG 2.2, success criterion 1.1.1.
 */
export function describePair({
  journal,
  before,
  after,
  language = english,
}: {
  readonly journal: Journal
  readonly before: Photo
  readonly after: Photo
  readonly language?: Language
}): string {
  const shows = (id: string) =>
    after.surfaceIds.length === 0 || after.surfaceIds.includes(id)
  const pieces = journal.pieces
    .map((piece) => ({
      ...piece,
      surfaces: piece.surfaces.filter(({ id }) => shows(id)),
    }))
    .filter(({ surfaces }) => surfaces.length > 0)
  const seen = pieces.length > 0 ? pieces : journal.pieces
  // How it shines is not what the picture is there to show, and there is room for one sentence.
  const works = surfaceWork({ ...journal, pieces: seen }).map((work) => ({
    ...work,
    layers: work.layers.map(({ kind, colour, finishedWith }) => ({
      kind,
      ...(colour !== undefined && { colour }),
      ...(finishedWith !== undefined && { finishedWith }),
    })),
  }))
  const view = after.view ?? before.view
  return firstThatFits(
    language.pair({
      pieces: seen,
      all: journal.pieces,
      ...(view !== undefined && { view }),
      appearance: appearanceOf(works, seen),
    }),
    characters,
  )
}
