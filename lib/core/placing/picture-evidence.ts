import type { StepKind } from '#core/journal/vocabulary'
import {
  type ColourMove,
  type Lab,
  colourDifference,
} from '#core/photos/colour-grid'

/**
 * How alike two views are, from how many of 64 bits their likenesses differ in: near 1 for the same view, 0 for another.
 *
 * Likenesses of unrelated pictures differ in half of the bits, 32 with a standard deviation of 4 (binomial, 64 bits); the
 * middle lies three and a half deviations below.
 */
export function sameView(unlikeBits: number): number {
  return 1 / (1 + Math.exp((unlikeBits - 18) / 2.5))
}

/** What a step does to the look of a surface. */
type LookChange = {
  /** How often the first of its kind is seen to change the look. */
  readonly first: number
  /** How often a further one does. */
  readonly further: number
  /** Which way: white or grey, as primer is; pale as bare wood; dark, as stain; or another colour, as paint. */
  readonly towards: 'white' | 'bare' | 'dark' | 'colour'
}

/** What an onlooker sees of each kind of step; common practice, no source. */
const lookChanges: Readonly<Record<StepKind, LookChange>> = {
  clean: { first: 0.15, further: 0.1, towards: 'colour' },
  repair: { first: 0.2, further: 0.2, towards: 'colour' },
  strip: { first: 0.8, further: 0.5, towards: 'bare' },
  sand: { first: 0.6, further: 0.3, towards: 'bare' },
  scuff: { first: 0.5, further: 0.3, towards: 'bare' },
  condition: { first: 0.2, further: 0.1, towards: 'dark' },
  prime: { first: 0.85, further: 0.2, towards: 'white' },
  coat: { first: 0.9, further: 0.4, towards: 'colour' },
  stain: { first: 0.9, further: 0.5, towards: 'dark' },
  glaze: { first: 0.6, further: 0.5, towards: 'dark' },
  seal: { first: 0.15, further: 0.1, towards: 'dark' },
  wax: { first: 0.15, further: 0.1, towards: 'dark' },
  hardware: { first: 0.4, further: 0.5, towards: 'colour' },
  liner: { first: 0.7, further: 0.3, towards: 'colour' },
  detail: { first: 0.3, further: 0.3, towards: 'colour' },
  assemble: { first: 0.3, further: 0.2, towards: 'colour' },
}

/** Another photo of the same step seldom shows another look; common practice, no source. */
const sameStepChange = 0.12

type Normal = readonly [mean: number, deviation: number]

/**
 * How the changed part of a picture moves: lighter or darker, how colourful it is then, and how far its tint moved, in
 * units of CIELAB; means and deviations. Common practice, no source.
 */
const ways: Readonly<
  Record<
    LookChange['towards'] | 'any',
    Readonly<Record<'lighter' | 'colourful' | 'tint', Normal>>
  >
> = {
  white: { lighter: [6, 8], colourful: [4, 5], tint: [10, 7] },
  bare: { lighter: [8, 9], colourful: [14, 8], tint: [8, 6] },
  dark: { lighter: [-15, 9], colourful: [10, 8], tint: [7, 6] },
  colour: { lighter: [-4, 15], colourful: [16, 13], tint: [15, 10] },
  any: { lighter: [0, 14], colourful: [11, 10], tint: [10, 8] },
}

/** How much of a picture of the same view is another colour when something changed; common practice, no source. */
const changedShare: Normal = [0.4, 0.2]
/** And when nothing did: light and hand move a little. The mean of an exponential. */
const stillShare = 0.08
/** How far the colours of two different views are apart on the whole, changed and not: as a factor's logarithm. */
const changedDistance: Normal = [Math.log(12), 0.7]
const stillDistance: Normal = [Math.log(6), 0.7]
/** Two views differ in more than the surface, so what they tell counts less; common practice, no source. */
const otherViewCounts = 0.4

/** How the colours moved since the last photo of the same surface, and whether that was the same view. */
export type Seen = { readonly move: ColourMove; readonly isSameView: boolean }

/**
 * How much a movement of colours speaks for one step, against knowing nothing.
 *
 * @param step absent for another photo of the step before; `isFirst` when the surface has no step of this kind yet
 * @returns a natural logarithm: above 0 for, below 0 against
 */
export function lookSpeaks(
  { move, isSameView }: Seen,
  step?: { readonly kind: StepKind; readonly isFirst: boolean },
): number {
  const change = step === undefined ? undefined : lookChanges[step.kind]
  const probability =
    change === undefined
      ? sameStepChange
      : step?.isFirst === true
        ? change.first
        : change.further
  const { changed, still } = isSameView ? inShare(move) : inDistance(move)
  const any = along(move, 'any')
  // What no bell foresees must not decide alone.
  const floor = 1e-3 * (changed + still) * any
  // Pictures of two views are mostly of what stands around.
  const isPossible =
    change?.towards === 'bare' && isSameView ? woodLike(move.to) : 1
  const told =
    probability * changed * isPossible * along(move, change?.towards ?? 'any') +
    (1 - probability) * still * any
  const untold = ((changed + still) / 2) * any
  return (
    Math.log((told + floor) / (untold + floor)) *
    (isSameView ? 1 : otherViewCounts)
  )
}

/**
 * How well a colour can be bare wood's, from 0 to 1: wood is yellow to red and never as grey as a primer; what is green,
 * blue or white is a film. Common practice, no source.
 */
function woodLike([, a, b]: Lab): number {
  if (b <= 0 || a < -2) return 0.02
  return 1 / (1 + Math.exp((8 - Math.hypot(a, b)) / 1.5))
}

function inShare({ share }: ColourMove) {
  return {
    changed: bell(share, ...changedShare),
    still: Math.exp(-share / stillShare) / stillShare,
  }
}

function inDistance({ from, to }: ColourMove) {
  const far = Math.log(Math.max(1, colourDifference(from, to)))
  return {
    changed: bell(far, ...changedDistance),
    still: bell(far, ...stillDistance),
  }
}

function along({ from, to }: ColourMove, towards: keyof typeof ways): number {
  const { lighter, colourful, tint } = ways[towards]
  return (
    bell(to[0] - from[0], ...lighter) *
    bell(Math.hypot(to[1], to[2]), ...colourful) *
    bell(Math.hypot(to[1] - from[1], to[2] - from[2]), ...tint)
  )
}

/** The normal density. */
export function bell(value: number, mean: number, deviation: number): number {
  const z = (value - mean) / deviation
  return Math.exp(-(z * z) / 2) / (deviation * Math.sqrt(2 * Math.PI))
}
