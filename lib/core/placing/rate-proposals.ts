import type { Journal } from '#core/journal/journal'
import type { Place, Proposal } from '#core/placing/place'
import { proposePlaces } from '#core/placing/propose-places'
import {
  type PhotoLook,
  placeOfStep,
  sequenceItems,
} from '#core/placing/sequence-items'
import type { StepOrderCounts } from '#core/placing/step-order'

/** How often something was right, out of how many photos. */
export type Score = {
  readonly photos: number
  /** The role for a photo of before or after; for one of a step its kind, its coat and all its surfaces. */
  readonly right: number
  /** Kind and coat right, and at least one surface. */
  readonly nearlyRight: number
  /** The kind alone. */
  readonly kindRight: number
}

/** How well proposals did on a job whose photos were placed by its owner. */
export type Rating = {
  /** The whole job at once, with no photo placed and no step there. */
  readonly atOnce: Score
  /** One burst after another, each with all before it placed as the owner did. */
  readonly inTurn: Score
  /** The plain rule in turn: the same as the photo before, as its owner placed that. */
  readonly plainInTurn: Score
  /** The plain rule at once: all are before, as the first is. */
  readonly plainAtOnce: Score
  /** For each photo proposed at once: how sure the first proposal was, and whether it was right. */
  readonly confidences: readonly {
    readonly confidence: number
    readonly isRight: boolean
  }[]
}

/** A job as it was before anybody had placed a photo from a moment on: later photos, and steps not begun, are gone. */
function hiddenFrom(journal: Journal, placed: ReadonlySet<string>): Journal {
  const steps = journal.steps.flatMap((step) => {
    const photoIds = step.photoIds.filter((id) => placed.has(id))
    return photoIds.length === 0 ? [] : [{ ...step, photoIds }]
  })
  return {
    ...journal,
    job: { id: journal.job.id, title: '', createdAt: journal.job.createdAt },
    steps,
    photos: journal.photos.map((photo) => {
      if (placed.has(photo.id)) return photo
      const { id, sha256, fileName, width, height, cameraId } = photo
      const { taken, basis, warnings } = photo
      return {
        ...{ id, sha256, fileName, width, height, taken, basis, warnings },
        ...(cameraId === undefined ? {} : { cameraId }),
        role: 'progress',
        surfaceIds: [],
      }
    }),
  }
}

/**
 * Rates the proposals for a job by what its owner said its photos show, which is hidden from them.
 *
 * @param learnt from other jobs, not this one
 */
export function rateProposals(
  journal: Journal,
  looks: ReadonlyMap<string, PhotoLook>,
  learnt: StepOrderCounts,
): Rating {
  const truth = truthOf(journal)
  const items = sequenceItems(hiddenFrom(journal, new Set()), looks)
  const atOnce = new Map<string, Proposal | undefined>()
  for (const burst of proposePlaces(
    hiddenFrom(journal, new Set()),
    looks,
    learnt,
  )) {
    for (const id of burst.photoIds) atOnce.set(id, burst.proposals[0])
  }
  const inTurn = new Map<string, Place | undefined>()
  const plain = new Map<string, Place | undefined>()
  const placed = new Set<string>()
  let before: Place | undefined
  for (const item of items) {
    const own = new Set(item.photoIds)
    const known = hiddenFrom(journal, placed)
    const present = {
      ...known,
      photos: known.photos.filter(({ id }) => placed.has(id) || own.has(id)),
    }
    const first = proposePlaces(present, looks, learnt).find((burst) =>
      burst.photoIds.some((id) => own.has(id)),
    )?.proposals[0]?.place
    for (const id of item.photoIds) {
      inTurn.set(id, first)
      plain.set(id, before)
      placed.add(id)
      before = truth.get(id)
    }
  }
  const start: Place = { as: 'before' }
  return {
    atOnce: scoreOf(truth, (id) => atOnce.get(id)?.place),
    inTurn: scoreOf(truth, (id) => inTurn.get(id)),
    plainInTurn: scoreOf(truth, (id) => plain.get(id)),
    plainAtOnce: scoreOf(truth, () => start),
    confidences: [...truth].map(([id, place]) => {
      const proposal = atOnce.get(id)
      return {
        confidence: proposal?.confidence ?? 0,
        isRight: isRight(place, proposal?.place),
      }
    }),
  }
}

function truthOf(journal: Journal): ReadonlyMap<string, Place> {
  const steps = new Map(journal.steps.map((step) => [step.id, step]))
  return new Map(
    journal.photos.flatMap((photo): [string, Place][] => {
      const step =
        photo.stepId === undefined ? undefined : steps.get(photo.stepId)
      if (step !== undefined) return [[photo.id, placeOfStep(step)]]
      return photo.role === 'progress' ? [] : [[photo.id, { as: photo.role }]]
    }),
  )
}

function scoreOf(
  truth: ReadonlyMap<string, Place>,
  proposed: (photoId: string) => Place | undefined,
): Score {
  const pairs = [...truth].map(([id, place]) => [place, proposed(id)] as const)
  const count = (test: (place: Place, other: Place | undefined) => boolean) =>
    pairs.filter(([place, other]) => test(place, other)).length
  return {
    photos: pairs.length,
    right: count(isRight),
    nearlyRight: count(isNearlyRight),
    kindRight: count(isKindRight),
  }
}

function isKindRight(one: Place, other: Place | undefined): boolean {
  if (one.as !== 'step' || other?.as !== 'step') return one.as === other?.as
  return one.kind === other.kind
}

function isNearlyRight(one: Place, other: Place | undefined): boolean {
  if (!isKindRight(one, other)) return false
  if (one.as !== 'step' || other?.as !== 'step') return true
  return (
    one.coat === other.coat &&
    one.surfaceIds.some((id) => other.surfaceIds.includes(id))
  )
}

function isRight(one: Place, other: Place | undefined): boolean {
  if (!isNearlyRight(one, other)) return false
  if (one.as !== 'step' || other?.as !== 'step') return true
  return (
    one.surfaceIds.length === other.surfaceIds.length &&
    one.surfaceIds.every((id) => other.surfaceIds.includes(id))
  )
}

/** Several scores as one. */
export function scoreTogether(scores: readonly Score[]): Score {
  const sum = (member: keyof Score) =>
    scores.reduce((total, score) => total + score[member], 0)
  return {
    photos: sum('photos'),
    right: sum('right'),
    nearlyRight: sum('nearlyRight'),
    kindRight: sum('kindRight'),
  }
}
