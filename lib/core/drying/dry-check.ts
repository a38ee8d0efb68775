import type { Elapsed } from '#core/time/span'
import type { Minutes } from '#core/units'

export const verdicts = [
  'too-soon',
  'in-window',
  'past-window',
  'unsure',
  'no-label',
] as const
export type Verdict = (typeof verdicts)[number]

/** What the later step asks of the coat below it. */
export type Purpose = 'recoat' | 'sand' | 'handle'

/** The judgement on one gap between two steps on one surface. */
export type DryCheck = {
  /** Ids of the earlier and the later step. */
  readonly from: string
  readonly to: string
  readonly purpose: Purpose
  readonly elapsed: Elapsed
  /** The label's own times for this purpose. */
  readonly label: { readonly min?: Minutes; readonly max?: Minutes }
  /** The wait at which dryness reaches the label minimum in the air there was; never under the label minimum. */
  readonly required?: Minutes
  /** How dry it was when the later step began: 1 is the label minimum in reference air. */
  readonly dryness?: { readonly low: number; readonly high: number }
  readonly verdict: Verdict
  /** Why, with the numbers, as a sentence for the owner. */
  readonly reason: string
  /** What to do about it; empty when there is nothing to do. */
  readonly advice: string
}
