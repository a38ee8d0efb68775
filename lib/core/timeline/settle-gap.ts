import type { DryCheck, Purpose } from '#core/drying/dry-check'
import type { DryingClocks } from '#core/drying/drying-clock'
import {
  type DryingCoat,
  type StepTime,
  judgeGap,
} from '#core/drying/judge-gap'
import type { Preparation } from '#core/drying/recoat-windows'
import type { Step } from '#core/journal/journal'
import type { Units } from '#core/measures/units-of-measure'
import { type StepTimes, arrivalClock } from '#core/timeline/step-times'

/** A step with the clocks behind its times. */
type ClockedStep = {
  readonly step: Pick<Step, 'id'>
  readonly times: StepTimes
}

/** Two steps on one surface, with the clocks behind their times. */
export type ClockedGap = {
  readonly earlier: ClockedStep
  readonly later: ClockedStep
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
 * @param units what its sentences are written in
 */
export function settleGap(
  gap: ClockedGap,
  coat: DryingCoat | undefined,
  clocks: DryingClocks,
  cameraNames: ReadonlyMap<string, string>,
  units: Units = 'metric',
): DryCheck {
  const earlier = gap.earlier.times
  const later = gap.later.times
  if (earlier.doubted.length === 0 && later.doubted.length === 0)
    return judgeTimes(gap, earlier.time, later.time, coat, clocks, units)
  const doubted = [...new Set([...earlier.doubted, ...later.doubted])]
  if (new Set([...earlier.clocks, ...later.clocks]).size === 1)
    return judgeTimes(
      gap,
      earlier.faceTime,
      later.faceTime,
      coat,
      clocks,
      units,
    )
  const check = judgeTimes(gap, earlier.time, later.time, coat, clocks, units)
  if (check.verdict === 'no-label') return check
  const doubt = doubtInWords(doubted, cameraNames)
  if (earlier.isDoubtful || later.isDoubtful) {
    return unsure(
      check,
      `But one of these steps is told by ${doubt.photos} alone, and ${doubt.because}.`,
      doubt,
    )
  }
  const face = judgeTimes(
    gap,
    earlier.faceTime,
    later.faceTime,
    coat,
    clocks,
    units,
  )
  return face.verdict === check.verdict
    ? {
        ...check,
        elapsed: check.elapsed,
        advice: check.advice,
        reason: `${check.reason} ${capital(doubt.photos)} were left out, since ${doubt.because}; taken at face value they change nothing. To use them, ${doubt.settle}.`,
      }
    : unsure(
        check,
        `But ${doubt.photos} say otherwise, and ${doubt.because}.`,
        doubt,
      )
}

type Doubt = {
  /** Which photos, as they read inside a sentence. */
  readonly photos: string
  /** Why they are in doubt. */
  readonly because: string
  /** What settles it, as an order in small letters. */
  readonly settle: string
  /** What it is about, for the advice. */
  readonly about: string
}

function doubtInWords(
  doubted: readonly string[],
  cameraNames: ReadonlyMap<string, string>,
): Doubt {
  const cameras = doubted.filter((id) => id !== arrivalClock)
  const one = cameras.length === 1
  const names = camerasInWords(cameras, cameraNames)
  const ofCameras: Doubt = {
    photos: `photos of ${names}`,
    because: `${one ? 'its clock has' : 'their clocks have'} not been checked`,
    settle: `set ${one ? 'its clock' : 'their clocks'} in Workshop`,
    about: names,
  }
  if (cameras.length === doubted.length) return ofCameras
  const undated: Doubt = {
    photos: 'photos without a time of their own',
    because: 'they were taken some time before they arrived here',
    settle: 'type the time of those photos',
    about: 'photos without a time',
  }
  if (cameras.length === 0) return undated
  return {
    photos: `${ofCameras.photos} and ${undated.photos}`,
    because: `${ofCameras.because}, and the others were taken some time before they arrived here`,
    settle: `${ofCameras.settle} and ${undated.settle}`,
    about: `${names}, and ${undated.about}`,
  }
}

function capital(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`
}

function judgeTimes(
  gap: ClockedGap,
  earlier: StepTime,
  later: StepTime,
  coat: DryingCoat | undefined,
  clocks: DryingClocks,
  units: Units,
): DryCheck {
  const { purpose, prepared } = gap
  const from = gap.earlier.step.id
  const to = gap.later.step.id
  // It names the steps that the gap names; not a copy of it, which would have its sentences written.
  return judgeGap(
    { earlier, later, purpose, prepared, from, to },
    coat,
    clocks,
    units,
  ) as DryCheck
}

/** The names of cameras as they read in a sentence. */
export function camerasInWords(
  ids: readonly string[],
  cameraNames: ReadonlyMap<string, string>,
): string {
  return ids.map((id) => cameraNames.get(id) ?? 'a camera').join(' and ')
}

function unsure(check: DryCheck, why: string, doubt: Doubt): DryCheck {
  const settle = `${capital(doubt.settle)} to settle it`
  return {
    ...check,
    elapsed: check.elapsed,
    verdict: 'unsure',
    reason: `${check.reason} ${why} ${settle}.`,
    advice: `${settle} (${doubt.about}); until then treat it as too soon.`,
  }
}
