import type { StepKind } from '#core/journal/vocabulary'

/** A coat that would get another number on one surface. */
export type RenumberedCoat = {
  readonly stepId: string
  readonly surfaceId: string
  readonly was: number
  readonly coat: number
}

/** Where coats are to be counted anew: one kind on one surface. */
export type CoatCount = {
  readonly kind: StepKind
  readonly surfaceId: string
  /** The number of the first coat, where it is lower than all that are there. */
  readonly first?: number
}

/**
 * The coats whose numbers do not follow the order of the work, with the numbers that would: counted on without a gap from
 * the lowest, so that a finish that began before its journal keeps its count.
 *
 * @param lanes the steps of each surface in order of time, as a timeline has them
 * @returns in order of time on each surface; empty where all numbers are right
 */
export function renumberedCoats(
  lanes: readonly {
    readonly surface: { readonly id: string }
    readonly steps: readonly {
      readonly id: string
      readonly kind: StepKind
      readonly coat?: number
    }[]
  }[],
  counts: readonly CoatCount[],
): readonly RenumberedCoat[] {
  return counts.flatMap(({ kind, surfaceId, first }) => {
    const lane = lanes.find(({ surface }) => surface.id === surfaceId)
    const coats = (lane?.steps ?? []).flatMap(({ id, kind: of, coat }) =>
      of === kind && coat !== undefined ? { stepId: id, was: coat } : [],
    )
    const lowest = Math.min(first ?? Infinity, ...coats.map(({ was }) => was))
    return coats
      .map((one, index) => ({ ...one, surfaceId, coat: lowest + index }))
      .filter(({ was, coat }) => was !== coat)
  })
}
