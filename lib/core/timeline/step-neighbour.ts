import type { LaneStep } from '#core/timeline/timeline'

/**
 * The step that another could change places with on its surface: the one beside it, unless their times say which came
 * first.
 *
 * @param steps of one surface, in the order of its timeline
 * @returns `none` where there is no step on that side, `by-time` where the order is not the owner's to choose
 */
export function stepNeighbour(
  steps: readonly LaneStep[],
  stepId: string,
  toward: 'earlier' | 'later',
): LaneStep | 'none' | 'by-time' {
  const index = steps.findIndex(({ id }) => id === stepId)
  const step = steps[index]
  const other =
    index < 0 ? undefined : steps[index + (toward === 'earlier' ? -1 : 1)]
  if (step === undefined || other === undefined) return 'none'
  return step.started?.at === other.started?.at &&
    step.finished?.at === other.finished?.at
    ? other
    : 'by-time'
}
