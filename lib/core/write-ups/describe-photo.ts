import type { Journal, Photo } from '#core/journal/journal'
import { appearanceOf } from '#core/write-ups/appearance'
import { english } from '#core/write-ups/english'
import { firstThatFits } from '#core/write-ups/fit-to-limit'
import type { Language } from '#core/write-ups/language'
import { seenInPhoto } from '#core/write-ups/seen-in-photo'
import { surfaceWork } from '#core/write-ups/surface-work'

/** Common practice, no source: about what a screen reader says in one breath. */
const characters = 125

/**
 * The text alternative of a photo: its flaw, or what is done to what; of an after, how what it shows looks, where that was
 * said.
 *
 * @returns one sentence of at most 125 characters, except where the name of the piece alone is longer:
 * then that much of it as fits in whole words
 * Source: WCAG 2.2, success criterion 1.1.1.
 */
export function describePhoto(
  journal: Journal,
  photo: Photo,
  language: Language = english,
): string {
  const { pieces, isKnown } = seenInPhoto(journal, photo)
  const works = !isKnown
    ? []
    : surfaceWork({ ...journal, pieces }).map((work) => ({
        ...work,
        layers: work.layers.map(({ kind, colour, finishedWith }) => ({
          kind,
          ...(colour !== undefined && { colour }),
          ...(finishedWith !== undefined && { finishedWith }),
        })),
      }))
  const step = journal.steps.find(({ id }) => id === photo.stepId)
  return firstThatFits(
    language.photo({
      pieces,
      // A detail names its surfaces; a view of the whole does not.
      surfaces: photo.view === undefined && isKnown ? pieces : [],
      all: journal.pieces,
      role: photo.role,
      ...(photo.view !== undefined && { view: photo.view }),
      ...(photo.flaw !== undefined && { flaw: photo.flaw }),
      ...(step && { step: step.kind }),
      appearance: appearanceOf(works, pieces),
    }),
    characters,
  )
}
