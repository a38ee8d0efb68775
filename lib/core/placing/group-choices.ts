import { type Place, placeKey } from '#core/placing/place'

/** Photos and the place that was chosen for them. */
export type PlacingChoice = {
  readonly photoIds: readonly string[]
  readonly place: Place
}

/**
 * Choices that mean one step, as one: photos of the same new coat belong to one step, and so do photos of other new work
 * of one kind, such as sanding, unless other work on the same surfaces was chosen in between.
 *
 * @param choices in order of time
 * @returns in order of the first photo of each
 */
export function groupChoices(
  choices: readonly PlacingChoice[],
): readonly PlacingChoice[] {
  const groups: { readonly place: Place; readonly photoIds: string[] }[] = []
  for (const { photoIds, place } of choices) {
    const same = groups.findLast(
      (group) => placeKey(group.place) === placeKey(place),
    )
    if (
      same !== undefined &&
      isOne(same.place, groups.slice(groups.indexOf(same) + 1))
    ) {
      same.photoIds.push(...photoIds)
    } else {
      groups.push({ place, photoIds: [...photoIds] })
    }
  }
  return groups
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
