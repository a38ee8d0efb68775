import { isClear } from '#core/finish/product-traits'
import { mentions } from '#core/finish/mentions'
import { coatInSentence, stepInSentence } from '#core/write-ups/english-steps'
import {
  type StoryStep,
  type SurfaceStory,
  perhapsBefore,
  stepsBefore,
} from '#core/finish/surface-story'

/** Whether a step cuts into what it is done to. */
export function isAbrasion(step: StoryStep): boolean {
  return step.kind === 'sand' || step.kind === 'scuff'
}

/** Whether a step lays a film on the wood, as stain and conditioner do not. */
export function isFilm(step: StoryStep): boolean {
  return step.isCoat && step.kind !== 'stain' && step.kind !== 'condition'
}

/** Whether a step lays on colour that hides what is under it. */
export function isPaint(step: StoryStep): boolean {
  return step.kind === 'coat' && !isClear(step.product)
}

/** Whether a step lays on a clear film. */
export function isClearCoat(step: StoryStep): boolean {
  return step.kind === 'seal' || (step.kind === 'coat' && isClear(step.product))
}

/** Whether the piece came without a finish, by what the owner says of it. */
export function cameUnfinished({ piece }: SurfaceStory): boolean {
  return [piece.material, piece.flaws].some((text) =>
    mentions(text, /unfinished|bare wood|raw wood|newly made|new wood/),
  )
}

/** The coat that lay on a surface when a step began, with nothing but preparation since; undefined when there was none. */
export function coatUnder(
  story: SurfaceStory,
  step: StoryStep,
): StoryStep | undefined {
  const before = stepsBefore(story, step)
  const last = before.findLast((one) => one.isCoat || one.kind === 'strip')
  return last?.isCoat === true ? last : undefined
}

/**
 * Whether wood lay bare under a step, and how it is known: it was stripped, or sanded with P120 or coarser, and no film
 * was laid since.
 */
export function barenessUnder(
  story: SurfaceStory,
  step: StoryStep,
): 'stripped' | 'sanded' | undefined {
  const before = stepsBefore(story, step)
  const film = before.findLastIndex(isFilm)
  const since = before.slice(film + 1)
  if (since.some((one) => one.kind === 'strip')) return 'stripped'
  return since.some(
    (one) => one.kind === 'sand' && (one.step.grit ?? Infinity) <= 120,
  )
    ? 'sanded'
    : undefined
}

/** Whether a step is the first of its like on a surface: nothing like it came before for certain, or perhaps. */
export function isFirst(
  story: SurfaceStory,
  step: StoryStep,
  isLike: (one: StoryStep) => boolean,
): boolean {
  return isLike(step) && !perhapsBefore(story, step).some(isLike)
}

/** A step as it reads in a sentence: by its product, else `the second coat of paint`, `scuffing`. */
export function stepWords(step: StoryStep): string {
  const { kind, coat, isCoat, product } = step
  if (product !== undefined) return product.name
  return isCoat ? coatInSentence(kind, coat) : stepInSentence({ kind })
}
