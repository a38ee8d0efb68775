/** What speaks for and against a map of the after onto the before. */
export type AlignmentEvidence = {
  /** Patches of the one found in the other where the map says. */
  readonly agreeing: number
  /** How far apart maps from one half of the patches and from the other take the corners, as a share of the diagonal. */
  readonly halvesApart: number
  /** How far the map takes the corners from where they are, as a share of the diagonal. */
  readonly moved: number
  /** The part of the before that an upright rectangle can hold which both show. */
  readonly shared: number
  /** Bits that one picture tells about the other: under the map, as the photos are, and under the map moved a little. */
  readonly information: {
    readonly aligned: number
    readonly unaligned: number
    readonly displaced: number
  }
}

/** Why a map is not to be used. */
export type AlignmentDoubt =
  'few-places' | 'halves-disagree' | 'no-better' | 'little-shared'

/** Whether a map is to be used, and how sure of it we are. */
export type AlignmentJudgement =
  | { readonly accepted: true; readonly confidence: number }
  | {
      readonly accepted: false
      readonly confidence: number
      readonly doubt: AlignmentDoubt
    }

/** Below this a map is refused. */
export const leastConfidence = 0.5

/** Closer than this two maps of a photo look the same; common practice, no source. */
const unseen = 0.003

/**
 * Whether to use a map: as sure as the weakest of what speaks for it.
 *
 * Each witness is independent of how the map was found, or sees only half of it: enough places that agree; two halves of
 * them, each fitted alone, that lead to the same map; and mutual information, which the fit did not look at, larger under
 * the map than a little beside it and than with the photos as they are. A map that does no better than none is refused
 * whatever else speaks for it.
 *
 * @returns confidence from 0 to 1; where each witness has 0 and 1 was set on made pairs and pairs of different scenes
 *   (tests/services/alignment)
 */
export function judgeAlignment({
  agreeing,
  halvesApart,
  moved,
  shared,
  information,
}: AlignmentEvidence): AlignmentJudgement {
  const { aligned, unaligned, displaced } = information
  const better = moved < unseen || aligned > unaligned
  const marks: readonly (readonly [AlignmentDoubt, number])[] = [
    ['few-places', ramp(agreeing, 14, 46)],
    ['halves-disagree', ramp(halvesApart, 0.028, 0.002)],
    [
      'no-better',
      better && displaced > 0 ? ramp(aligned / displaced, 1, 1.12) : 0,
    ],
    ['little-shared', ramp(shared, 0.1, 0.5)],
  ]
  const [doubt, confidence] = marks.reduce((weakest, mark) =>
    mark[1] < weakest[1] ? mark : weakest,
  )
  return confidence >= leastConfidence
    ? { accepted: true, confidence }
    : { accepted: false, confidence, doubt }
}

/** 0 up to one value, 1 from another on, and evenly in between. */
function ramp(value: number, zero: number, one: number): number {
  if (!Number.isFinite(value)) return 0
  return Math.max(0, Math.min(1, (value - zero) / (one - zero)))
}
