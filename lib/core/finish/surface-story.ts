import { isCoating } from '#core/finish/is-coat-like'
import { mentions } from '#core/finish/mentions'
import { type Wood, woodOf } from '#core/finish/wood-of'
import type { Journal, Piece, Step, Surface } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Product } from '#core/shelf/product'
import { type Elapsed, elapsedBetween } from '#core/time/span'
import {
  type StepTimes,
  stepTimes,
  uncheckedCameras,
} from '#core/timeline/step-times'
import type { TimelineWarning } from '#core/timeline/timeline'
import type { LeadNotes } from '#core/write-ups/lead-notes'

/** A step as one surface saw it. */
export type StoryStep = {
  readonly id: string
  readonly kind: StepKind
  readonly coat: number | undefined
  readonly product: Product | undefined
  readonly step: Step
  /** Whether it laid on something that dries. */
  readonly isCoat: boolean
  readonly times: StepTimes | undefined
  /** The air when it went on, where that was wrong. */
  readonly air: readonly TimelineWarning[]
  /** Dry film over the label's; undefined where it is not known. */
  readonly filmRatio: number | undefined
}

/** All that was done to one surface, and what else about it bears on a sound finish. */
export type SurfaceStory = {
  readonly piece: Piece
  readonly surface: Surface
  /** Handles, hinges and the like: nothing that is said of wood holds. */
  readonly isHardware: boolean
  readonly wood: Wood
  /** In order of time. */
  readonly steps: readonly StoryStep[]
  /** Steps that nothing tells the time of: each may have come before or after any other. */
  readonly untimed: readonly StoryStep[]
  readonly hasBeforePhoto: boolean
  /** What was written about lead anywhere in the job. */
  readonly lead: LeadNotes
  readonly job: Journal['job']
  /** Every note of the job that speaks of rags, with when its step ended. */
  readonly ragNotes: readonly (StepTimes | undefined)[]
}

/** What the stories of a job need beyond its journal. */
export type StoryFacts = {
  readonly lead: LeadNotes
  readonly airOf: (
    step: Step,
    product: Product | undefined,
    times: StepTimes,
  ) => readonly TimelineWarning[]
  readonly filmRatioOf: (
    step: Step,
    product: Product | undefined,
  ) => number | undefined
}

const hardwareWords =
  /hardware|fittings?|handles?|knobs?|pulls?|hinges?|castors?|casters?|escutcheons?|locks?/

/**
 * The stories of all surfaces of a job, in the order of its pieces.
 *
 * @param last the id of a step that comes after all others while nothing tells its time, such as one being written
 *   down now
 */
export function surfaceStories(
  journal: Journal,
  facts: StoryFacts,
  last?: string,
): readonly SurfaceStory[] {
  const unchecked = uncheckedCameras(journal)
  const photoOf = new Map(journal.photos.map((photo) => [photo.id, photo]))
  const productOf = new Map(
    journal.products.map((product) => [product.id, product]),
  )
  const told = journal.steps.map((step) => ({
    step,
    product:
      step.productId === undefined ? undefined : productOf.get(step.productId),
    times: stepTimes(
      step,
      step.photoIds.flatMap((id) => photoOf.get(id) ?? []),
      unchecked,
    ),
  }))
  const ragNotes = told.flatMap(({ step, times }) =>
    mentions(step.note, /rags?|cloths?|wipes|pads/) ? [times] : [],
  )
  const withBefore = new Set(
    journal.photos
      .filter((photo) => photo.role === 'before')
      .flatMap((photo) => photo.surfaceIds),
  )
  return journal.pieces.flatMap((piece) => {
    const wood = woodOf(piece)
    return piece.surfaces.map((surface): SurfaceStory => {
      const own = told.flatMap(({ step, product, times }): StoryStep[] => {
        const on = step.surfaces.find((one) => one.surfaceId === surface.id)
        if (on === undefined) return []
        const isCoat = isCoating({
          kind: step.kind,
          productId: step.productId,
          coat: on.coat,
        })
        return [
          {
            id: step.id,
            kind: step.kind,
            coat: on.coat,
            product,
            step,
            isCoat,
            times,
            air:
              isCoat && times !== undefined
                ? facts.airOf(step, product, times)
                : [],
            filmRatio: isCoat ? facts.filmRatioOf(step, product) : undefined,
          },
        ]
      })
      const timed = own
        .filter((one) => one.times !== undefined && one.id !== last)
        .sort(byTime)
      const newest = own.filter((one) => one.id === last)
      return {
        piece,
        surface,
        isHardware: mentions(surface.name, hardwareWords),
        wood,
        steps: newest.some((one) => one.times !== undefined)
          ? [...timed, ...newest].sort(byTime)
          : [...timed, ...newest],
        untimed: own.filter(
          (one) => one.times === undefined && one.id !== last,
        ),
        hasBeforePhoto:
          withBefore.has(surface.id) ||
          journal.photos.some(
            (photo) => photo.role === 'before' && photo.surfaceIds.length === 0,
          ),
        lead: facts.lead,
        job: journal.job,
        ragNotes,
      }
    })
  })
}

function byTime(one: StoryStep, other: StoryStep): number {
  const [first, second] = [one.times?.time, other.times?.time]
  if (first === undefined || second === undefined) return 0
  return (
    first.started.at - second.started.at ||
    first.finished.at - second.finished.at ||
    one.step.createdAt - other.step.createdAt
  )
}

/** What came before a step on its surface for certain, in order of time. */
export function stepsBefore(
  story: SurfaceStory,
  step: StoryStep,
): readonly StoryStep[] {
  return story.steps.slice(0, Math.max(0, story.steps.indexOf(step)))
}

/** What may have come before a step: all that did for certain, and all that nothing tells the order of. */
export function perhapsBefore(
  story: SurfaceStory,
  step: StoryStep,
): readonly StoryStep[] {
  return story.steps.includes(step)
    ? [...story.untimed, ...stepsBefore(story, step)]
    : allSteps(story).filter((one) => one !== step)
}

/** All steps on a surface: those in order of time, then those that nothing tells the time of. */
export function allSteps(story: SurfaceStory): readonly StoryStep[] {
  return [...story.steps, ...story.untimed]
}

/** What came after one step and before another on a surface for certain, or perhaps. */
export function perhapsBetween(
  story: SurfaceStory,
  earlier: StoryStep,
  later: StoryStep,
): readonly StoryStep[] {
  return [
    ...story.untimed,
    ...story.steps.slice(
      story.steps.indexOf(earlier) + 1,
      story.steps.indexOf(later),
    ),
  ]
}

/** The wait between two steps; undefined where a clock that nobody has checked would decide it. */
export function waitBetween(
  earlier: StoryStep,
  later: StoryStep,
): Elapsed | undefined {
  const from = earlier.times
  const to = later.times
  return from === undefined ||
    to === undefined ||
    from.isDoubtful ||
    to.isDoubtful
    ? undefined
    : elapsedBetween(from.time.finished, to.time.started)
}
