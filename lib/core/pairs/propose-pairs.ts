import { type PairPhoto, plainView } from '#core/pairs/pair-photo'

/** Two photos that may be of one view. */
export type ProposedPair = {
  readonly before: string
  readonly after: string
  /** The view typed on them, as the before has it. */
  readonly view: string
}

/** Photos whose view nobody typed, or typed on one side alone: only their pictures tell what goes with what. */
export type Unpaired = {
  readonly befores: readonly string[]
  readonly afters: readonly string[]
}

/**
 * The pairs that the typed views make: of each view the earliest before and the latest after. Names of views are compared
 * without case, hyphens and underscores.
 *
 * @returns the pairs in order of their befores' times, and the photos that have no partner, in order of theirs
 */
export function proposePairs(photos: readonly PairPhoto[]): {
  readonly pairs: readonly ProposedPair[]
  readonly unpaired: Unpaired
} {
  const inOrder = photos.toSorted((one, other) => one.taken.at - other.taken.at)
  const befores = inOrder.filter((photo) => photo.role === 'before')
  const afters = inOrder.filter((photo) => photo.role === 'after')
  const pairs: ProposedPair[] = []
  const views = new Set(befores.map(plainView).filter((view) => view !== ''))
  for (const view of views) {
    const before = befores.find((photo) => plainView(photo) === view)
    const after = afters.findLast((photo) => plainView(photo) === view)
    if (before === undefined || after === undefined) continue
    pairs.push({
      before: before.id,
      after: after.id,
      view: before.view?.trim() ?? view,
    })
  }
  const paired = new Set(
    pairs
      .map((pair) => photos.find((photo) => photo.id === pair.before))
      .map((photo) => (photo === undefined ? '' : plainView(photo))),
  )
  const alone = (photo: PairPhoto) => !paired.has(plainView(photo))
  return {
    pairs,
    unpaired: {
      befores: befores.filter(alone).map(({ id }) => id),
      afters: afters.filter(alone).map(({ id }) => id),
    },
  }
}
