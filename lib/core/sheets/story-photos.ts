import type { Journal, Photo, Step } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import { plainView } from '#core/pairs/pair-photo'

/** A photo of a step, with the step. */
export type StepPhoto = { readonly photo: Photo; readonly step: Step }

/** How much a step changes what is seen, from least to most. Common practice, no source. */
const telling: Readonly<Record<StepKind, number>> = {
  clean: 1,
  repair: 3,
  strip: 6,
  sand: 4,
  scuff: 2,
  condition: 1,
  prime: 5,
  coat: 7,
  stain: 7,
  glaze: 4,
  seal: 2,
  wax: 2,
  hardware: 3,
  liner: 3,
  detail: 2,
  assemble: 2,
}
/** A photo from where the pair was taken tells more than any step from elsewhere. */
const sameView = 8
/** The most pictures that a story may have, its two ends among them. */
export const mostInStory = 12

/**
 * The photos that show a job's steps, in the order of the work: one of each step, taken from where the before was taken if
 * there is one, else its last.
 */
export function stepPhotos(
  journal: Journal,
  before: Pick<Photo, 'id' | 'role' | 'view' | 'taken'>,
): readonly StepPhoto[] {
  const view = plainView(before)
  return journal.steps
    .flatMap((step) => {
      const own = journal.photos
        .filter(
          (photo) => photo.stepId === step.id && photo.role === 'progress',
        )
        .toSorted((one, other) => one.taken.at - other.taken.at)
      const photo =
        own.findLast((one) => view !== '' && plainView(one) === view) ??
        own.at(-1)
      return photo === undefined ? [] : [{ photo, step }]
    })
    .toSorted((one, other) => one.photo.taken.at - other.photo.taken.at)
}

/**
 * Of the photos of a job's steps those that tell its story best, in the order of the work: different kinds of work before
 * the same again, what changes the look before what does not, and photos from where the pair was taken before others.
 *
 * @param count how many; fewer where there are not so many
 */
export function storyPhotos(
  journal: Journal,
  before: Pick<Photo, 'id' | 'role' | 'view' | 'taken'>,
  count: number,
): readonly StepPhoto[] {
  const view = plainView(before)
  const all = stepPhotos(journal, before)
  const worth = ({ photo, step }: StepPhoto) =>
    telling[step.kind] +
    (view !== '' && plainView(photo) === view ? sameView : 0)
  const chosen = new Set<StepPhoto>()
  const kinds = new Set<StepKind>()
  const ranked = all.toSorted((one, other) => worth(other) - worth(one))
  for (const one of ranked) {
    if (chosen.size >= count || kinds.has(one.step.kind)) continue
    chosen.add(one)
    kinds.add(one.step.kind)
  }
  for (const one of ranked) {
    if (chosen.size < count) chosen.add(one)
  }
  return all.filter((one) => chosen.has(one))
}

/** So many things out of more, evenly, the first and the last among them. */
export function evenly<Thing>(
  things: readonly Thing[],
  count: number,
): readonly Thing[] {
  if (things.length <= count) return things
  if (count < 2) return things.slice(0, count)
  return Array.from({ length: count }, (_, index) =>
    things.at(Math.round((index * (things.length - 1)) / (count - 1))),
  ).filter((thing) => thing !== undefined)
}
