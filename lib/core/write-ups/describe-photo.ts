import type { Journal, Photo, Piece, Step } from '#core/journal/journal'
import { appearanceOf } from '#core/write-ups/appearance'
import { english } from '#core/write-ups/english'
import { firstThatFits } from '#core/write-ups/fit-to-limit'
import type { Language } from '#core/write-ups/language'
import { seenInPhoto } from '#core/write-ups/seen-in-photo'
import { surfaceWork } from '#core/write-ups/surface-work'
import { type ToldStep, toldStep } from '#core/write-ups/told-step'
import { worksInPhoto } from '#core/write-ups/works-in-photo'

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
  const works =
    isKnown && photo.role === 'after'
      ? worksInPhoto(journal, { pieces }, photo.view)
      : []
  const step =
    photo.role === 'progress'
      ? journal.steps.find(({ id }) => id === photo.stepId)
      : undefined
  return firstThatFits(
    language.photo({
      pieces,
      // A detail names its surfaces; a view of the whole does not.
      surfaces: photo.view === undefined && isKnown ? pieces : [],
      all: journal.pieces,
      role: photo.role,
      ...(photo.view !== undefined && { view: photo.view }),
      ...(photo.flaw !== undefined && { flaw: photo.flaw }),
      ...(step && { step: stepShown(journal, pieces, step) }),
      appearance: appearanceOf(works, pieces),
    }),
    characters,
  )
}

/** The step, with the number of its coat where that is one on all that the photo shows of it. */
function stepShown(
  journal: Journal,
  pieces: readonly Piece[],
  step: Step,
): ToldStep {
  const told = surfaceWork({ ...journal, pieces })
    .filter(({ surface }) =>
      step.surfaces.some(({ surfaceId }) => surfaceId === surface.id),
    )
    .map((work) => toldStep(step, work))
  // Where only some of what is shown are parts, more than parts were put together.
  const first = told.find(({ isRefit }) => isRefit === undefined) ??
    told[0] ?? { kind: step.kind }
  if (told.every(({ coat }) => coat === first.coat)) return first
  return {
    kind: first.kind,
    ...(first.purpose !== undefined && { purpose: first.purpose }),
  }
}
