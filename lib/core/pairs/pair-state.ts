import type { MapModel } from '#core/geometry/fit-map'
import type { Homography } from '#core/geometry/homography'
import type { AlignmentDoubt } from '#core/geometry/judge-alignment'

/** Why a pair is shown as its photos are. */
export type PairDoubt = AlignmentDoubt | 'gave-up'

/** How the after of a pair lies over its before. */
export type PairState =
  | { readonly how: 'waiting' }
  | {
      readonly how: 'computed' | 'by-hand'
      readonly confidence: number
      readonly model: MapModel
      /** From upright pixels of the whole after to those of the before. */
      readonly homography: Homography
    }
  | {
      readonly how: 'none'
      readonly confidence: number
      readonly doubt: PairDoubt
    }

/** All doubts that a pair can be kept with. */
export const pairDoubts: readonly PairDoubt[] = [
  'few-places',
  'halves-disagree',
  'no-better',
  'little-shared',
  'gave-up',
]

/** Why a pair is shown unaligned, and what helps, for its owner. */
export function doubtSentence(doubt: PairDoubt): string {
  switch (doubt) {
    case 'few-places':
      return 'Too few places of one photo can be found in the other. Photos of one view, taken from nearly the same stand, can be aligned.'
    case 'halves-disagree':
      return 'One half of the photos asks for another alignment than the other half. Take the after from nearer to where the before was taken.'
    case 'no-better':
      return 'No alignment lays the photos better on each other than they lie.'
    case 'little-shared':
      return 'The photos show too little in common.'
    case 'gave-up':
      return 'Aligning them took more time or memory than it may.'
  }
}

/** Whether two photos are known to belong together: their pictures lie on each other, or their owner said so. */
export function isSurePair(pair: {
  readonly state: PairState
  readonly confirmedAt?: unknown
}): boolean {
  return 'homography' in pair.state || pair.confirmedAt !== undefined
}
