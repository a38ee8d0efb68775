import { type Place, placeKey } from '#core/placing/place'

/** Photos and the place that was chosen for them. */
export type PlacingChoice = {
  readonly photoIds: readonly string[]
  readonly place: Place
  /** What a new step was done with, where that was said. */
  readonly productId?: string
}

/**
 * Choices that mean one step, as one, done with what was said of any of them: photos of the same new coat belong to one
 * step, and so do photos of other new work of one kind, such as sanding, unless other work on the same surfaces was chosen
 * in between. What was done with two products is two steps.
 *
 * @param choices in order of time
 * @returns in order of the first photo of each
 */
export function groupChoices(
  choices: readonly PlacingChoice[],
): readonly PlacingChoice[] {
  const groups: Group[] = []
  for (const { photoIds, place, productId } of choices) {
    const same = groups.findLast(
      (group) =>
        placeKey(group.place) === placeKey(place) &&
        (productId ?? group.productId) === (group.productId ?? productId),
    )
    if (
      same !== undefined &&
      isOne(same.place, groups.slice(groups.indexOf(same) + 1))
    ) {
      same.photoIds.push(...photoIds)
      if (productId !== undefined) same.productId = productId
    } else {
      groups.push({
        place,
        photoIds: [...photoIds],
        ...(productId === undefined ? {} : { productId }),
      })
    }
  }
  return groups
}

type Group = {
  readonly place: Place
  readonly photoIds: string[]
  productId?: string
}

function isOne(place: Place, since: readonly { readonly place: Place }[]) {
  if (place.as !== 'step') return true
  if (place.stepId !== undefined || place.coat !== undefined) return true
  return !since.some(
    ({ place: other }) =>
      other.as === 'step' &&
      other.surfaceIds.some((id) => place.surfaceIds.includes(id)),
  )
}
