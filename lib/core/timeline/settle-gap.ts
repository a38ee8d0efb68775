import type { DryCheck, Purpose } from '#core/drying/dry-check'
import type { DryingClocks } from '#core/drying/drying-clock'
import {
  type DryingCoat,
  type StepTime,
  judgeGap,
} from '#core/drying/judge-gap'
import type { Preparation } from '#core/drying/recoat-windows'
import type { StepTimes } from '#core/timeline/step-times'

/** Two steps on one surface, with the clocks behind their times. */
export type ClockedGap = {
  readonly earlier: { readonly id: string; readonly times: StepTimes }
  readonly later: { readonly id: string; readonly times: StepTimes }
  readonly purpose: Purpose
  readonly prepared: Preparation | undefined
}

/**
 * The dry check on a gap, with care for clocks that nobody has checked.
 *
 * Between photos of one camera its error cancels. Otherwise photos in doubt count only where nothing else
 * tells, and where their word would make a difference the verdict is `unsure`.
 *
 * @param cameraNames names of cameras by their ids
 */
export function settleGap(
  gap: ClockedGap,
  coat: DryingCoat | undefined,
  clocks: DryingClocks,
  cameraNames: ReadonlyMap<string, string>,
): DryCheck {
  const earlier = gap.earlier.times
  const later = gap.later.times
  if (earlier.doubted.length === 0 && later.doubted.length === 0)
    return judgeTimes(gap, earlier.time, later.time, coat, clocks)
  const doubted = [...new Set([...earlier.doubted, ...later.doubted])]
  if (new Set([...earlier.clocks, ...later.clocks]).size === 1)
    return judgeTimes(gap, earlier.faceTime, later.faceTime, coat, clocks)
  const check = judgeTimes(gap, earlier.time, later.time, coat, clocks)
  if (check.verdict === 'no-label') return check
  const names = camerasInWords(doubted, cameraNames)
  const whose = doubted.length === 1 ? 'its clock' : 'their clocks'
  const unchecked = `${whose} ${doubted.length === 1 ? 'has' : 'have'} not been checked`
  if (earlier.isDoubtful || later.isDoubtful) {
    return unsure(
      check,
      `But one of these steps is told by photos of ${names} alone, and ${unchecked}.`,
      `Set ${whose} in Workshop to settle it`,
      names,
    )
  }
  const face = judgeTimes(gap, earlier.faceTime, later.faceTime, coat, clocks)
  return face.verdict === check.verdict
    ? {
        ...check,
        reason: `${check.reason} Photos of ${names} were left out, since ${unchecked}; taken at face value they change nothing. To use them, set ${whose} in Workshop.`,
      }
    : unsure(
        check,
        `But photos of ${names} say otherwise, and ${unchecked}.`,
        `Set ${whose} in Workshop to settle it`,
        names,
      )
}

function judgeTimes(
  gap: ClockedGap,
  earlier: StepTime,
  later: StepTime,
  coat: DryingCoat | undefined,
  clocks: DryingClocks,
): DryCheck {
  const judgement = judgeGap(
    { earlier, later, purpose: gap.purpose, prepared: gap.prepared },
    coat,
    clocks,
  )
  // Not a copy of the judgement: that would have its sentences written.
  return Object.assign(judgement, { from: gap.earlier.id, to: gap.later.id })
}

/** The names of cameras as they read in a sentence. */
export function camerasInWords(
  ids: readonly string[],
  cameraNames: ReadonlyMap<string, string>,
): string {
  return ids.map((id) => cameraNames.get(id) ?? 'a camera').join(' and ')
}

function unsure(
  check: DryCheck,
  why: string,
  settle: string,
  names: string,
): DryCheck {
  return {
    ...check,
    verdict: 'unsure',
    reason: `${check.reason} ${why} ${settle}.`,
    advice: `${settle} (${names}); until then treat it as too soon.`,
  }
}
