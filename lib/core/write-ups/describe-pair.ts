import type { Journal, Photo } from '#core/journal/journal'
import { appearanceOf } from '#core/write-ups/appearance'
import { english } from '#core/write-ups/english'
import { firstThatFits } from '#core/write-ups/fit-to-limit'
import type { Language } from '#core/write-ups/language'
import { seenInPhoto } from '#core/write-ups/seen-in-photo'
import { worksInPhoto } from '#core/write-ups/works-in-photo'

/** Common practice, no source: about what a screen reader says in one breath. */
const characters = 125

/**
 * The text alternative of a before/after pair, for who cannot see it: the piece, the view, and what changed.
 *
 * Only surfaces that the after photo shows, or that its view is of, are spoken of; a pair with neither is taken to show all.
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
  const view = after.view ?? before.view
  const { pieces: seen, isKnown } = seenInPhoto(journal, {
    ...after,
    ...(view !== undefined && { view }),
  })
  const isTold = isKnown || view === undefined
  const works = isTold ? worksInPhoto(journal, { pieces: seen }, view) : []
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
