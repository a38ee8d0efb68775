import { countsCoats } from '#core/journal/coats'
import type { Journal } from '#core/journal/journal'
import { stepKinds } from '#core/journal/vocabulary'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { offerProducts } from '#core/placing/offer-products'
import type { Place } from '#core/placing/place'
import { placeOfStep } from '#core/placing/sequence-items'
import type { Product } from '#core/shelf/product'
import type { ShownBurst } from '#services/placing/read-placing'
import { kindName } from '../../../_words'
import {
  type OwnStep,
  type PlaceOption,
  type PlaceParts,
  optionOf,
  valueOf,
} from './_place-options'
import { placeWords, sureEnough, sureWords } from './_place-words'

/** Photos that nobody has placed, as a line of the form shows them: all words are made already. */
export type PlacingLine = {
  readonly id: string
  readonly photoIds: readonly string[]
  readonly time: string
  /** How sure the first proposal is; empty when nothing is proposed. */
  readonly sure: string
  /** The value that is proposed; empty when it is only a guess, which is left. */
  readonly proposed: string
  /** What is only a guess, in words. */
  readonly guess: string
  readonly options: readonly PlaceOption[]
  /** What a step that is not among them is begun with. */
  readonly begin: OwnStep
  readonly folds: ShownBurst['folds']
}

/** What all lines of a job's form have in common. */
export function placeParts(
  journal: Journal,
  shelf: readonly Product[],
): PlaceParts {
  const { job, pieces, steps } = journal
  const known: readonly Place[] = [
    { as: 'before' },
    { as: 'after' },
    ...steps.map(placeOfStep).reverse(),
  ]
  const done = stepsInOrder(journal).map(({ step }) => step)
  const offers = Object.fromEntries(
    stepKinds.map((kind) => [
      kind,
      Object.fromEntries(
        pieces.map(({ id }) => [
          id,
          offerProducts(journal, done, shelf, kind, id),
        ]),
      ),
    ]),
  )
  return {
    job: job.id,
    known: known.map((place) => optionOf(place, { pieces, offers })),
    offers,
    productNames: Object.fromEntries(shelf.map(({ id, name }) => [id, name])),
    kinds: stepKinds.map((kind) => ({
      kind,
      name: kindName(kind),
      counted: countsCoats(kind),
    })),
    pieces: pieces.map(({ id, name, surfaces }) => ({
      id,
      name,
      surfaces: surfaces.map((one) => ({ id: one.id, name: one.name })),
    })),
  }
}

/**
 * A burst as a line of the form.
 *
 * @param time when its first photo was taken, in words
 */
export function placingLine(
  { photoIds, folds, proposals }: ShownBurst,
  parts: PlaceParts,
  time: string,
): PlacingLine {
  const first = proposals[0]
  const isSure = first !== undefined && first.confidence >= sureEnough
  return {
    id: photoIds[0] ?? '',
    photoIds,
    time,
    sure: first === undefined ? '' : sureWords(first.confidence),
    proposed: isSure ? valueOf(first.place) : '',
    guess:
      first === undefined || isSure
        ? ''
        : placeWords(first.place, parts.pieces),
    options: proposals.map(({ place }) => optionOf(place, parts)),
    begin: beginOf(proposals.map(({ place }) => place)),
    folds,
  }
}

function beginOf(places: readonly Place[]): OwnStep {
  const step = places.find((place) => place.as === 'step')
  if (step?.as !== 'step') return { kind: '', surfaces: [], coat: '' }
  const { kind, surfaceIds, coat } = step
  return { kind, surfaces: surfaceIds, coat: coat?.toString() ?? '' }
}
