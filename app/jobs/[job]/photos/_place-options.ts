import { countsCoats } from '#core/journal/coats'
import type { Piece } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Place } from '#core/placing/place'
import { placeWords } from './_place-words'

/** A place that photos can be said to show, in plain values: `value` is how the action takes it. */
export type PlaceOption = {
  readonly value: string
  readonly words: string
  /** The ids of the products that a new step may have been done with; absent where there is nothing to ask. */
  readonly products?: readonly string[]
}

/** A step that its owner puts together, as far as it has got. */
export type OwnStep = {
  readonly kind: StepKind | ''
  readonly surfaces: readonly string[]
  /** As it is typed; empty for the next one. */
  readonly coat: string
}

/** What a step can be put together from, the same for all lines of a job. */
export type PlaceParts = {
  readonly job: string
  /** Before, after and the steps that are there. */
  readonly known: readonly PlaceOption[]
  readonly kinds: readonly {
    readonly kind: StepKind
    readonly name: string
    readonly counted: boolean
  }[]
  readonly pieces: readonly Pick<Piece, 'id' | 'name' | 'surfaces'>[]
  /** What a new step may have been done with, by its kind and piece: `offers[kind][piece]`, ids. */
  readonly offers: Readonly<
    Partial<Record<StepKind, Readonly<Record<string, readonly string[]>>>>
  >
  /** The names of the products, by their ids. */
  readonly productNames: Readonly<Record<string, string>>
}

/** A step that its owner put together, as a place to choose; undefined while it is not complete. */
export function ownOption(
  { kind, surfaces, coat }: OwnStep,
  parts: Pick<PlaceParts, 'pieces' | 'offers'>,
): PlaceOption | undefined {
  // As the job has them: the same place is the same value, in whichever order it was tapped together.
  const surfaceIds = parts.pieces
    .flatMap((piece) => piece.surfaces.map((surface) => surface.id))
    .filter((id) => surfaces.includes(id))
  if (kind === '' || surfaceIds.length === 0) return undefined
  const number = Number(coat)
  const isNumber = Number.isInteger(number) && number >= 1 && number <= 99
  return optionOf(
    {
      as: 'step',
      kind,
      surfaceIds,
      ...(countsCoats(kind) && isNumber ? { coat: number } : {}),
    },
    parts,
  )
}

/** A place as it can be chosen. */
export function optionOf(
  place: Place,
  { pieces, offers }: Pick<PlaceParts, 'pieces' | 'offers'>,
): PlaceOption {
  const words = placeWords(place, pieces)
  const value = valueOf(place)
  if (place.as !== 'step' || place.stepId !== undefined) return { value, words }
  const { kind, surfaceIds, coat } = place
  // Hardware that is taken off is not done with anything.
  const isAsked = kind !== 'hardware' || coat !== undefined
  const products = pieces
    .filter((piece) => piece.surfaces.some(({ id }) => surfaceIds.includes(id)))
    .flatMap((piece) => offers[kind]?.[piece.id] ?? [])
  return {
    value,
    words: `${words} (new step)`,
    ...(isAsked && products.length > 0
      ? { products: [...new Set(products)] }
      : {}),
  }
}

/** A place as the action takes it. */
export function valueOf(place: Place): string {
  if (place.as !== 'step') return JSON.stringify({ as: place.as })
  const { stepId, kind, surfaceIds, coat } = place
  return JSON.stringify(
    stepId === undefined
      ? { as: 'step', kind, surfaces: surfaceIds, coat }
      : { as: 'step', step: stepId },
  )
}

/** A new step as the action takes it, with what it was done with. */
export function withProduct(value: string, productId: string): string {
  return JSON.stringify({ ...JSON.parse(value), product: productId })
}

/** Options without those whose place stood before. */
export function onlyOnce(
  options: readonly PlaceOption[],
  before: readonly PlaceOption[],
): readonly PlaceOption[] {
  const values = new Set(before.map((one) => one.value))
  return options.filter((one) => {
    if (values.has(one.value)) return false
    values.add(one.value)
    return true
  })
}
