import type { PairState } from '#core/pairs/pair-state'

/** An alignment of two photos that were taken from the same place. */
export const sameView = {
  how: 'computed',
  homography: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  model: 'similarity',
  confidence: 0.9,
} as const satisfies PairState
