import type { Purpose, Verdict } from '#core/drying/dry-check'
import type { Preparation } from '#core/drying/recoat-windows'
import type { Chemistry } from '#core/shelf/product'
import { lengthOfTime } from '#core/time/length-of-time'

/** A verdict and what decides what to do about it. */
export type AdviceFacts = {
  readonly verdict: Verdict
  readonly purpose: Purpose
  /** Of the earlier step's product. */
  readonly chemistry: Chemistry
  /** The wait that was needed, in minutes. */
  readonly requiredMinutes: number
  /** What the label asks for before the next coat, if anything. */
  readonly needs: Preparation | undefined
  /** Whether only the air leaves the verdict open. */
  readonly isAirToBlame: boolean
}

/**
 * What to do about a verdict, as sentences for the owner; empty when there is nothing to do.
 *
 * Common practice, no source; the label and a test in a hidden spot come first.
 */
export function gapAdvice(facts: AdviceFacts): string {
  switch (facts.verdict) {
    case 'in-window':
      return ''
    case 'no-label':
      return 'Read the least wait off the can and add it on the Shelf.'
    case 'unsure':
      return facts.isAirToBlame
        ? `Treat it as too soon. ${tooSoon(facts)}`
        : 'Type the times of these two steps to settle it; until then treat it as too soon.'
    case 'too-soon':
      return tooSoon(facts)
    case 'past-window':
      return `${facts.needs === 'sand' ? 'Sand' : 'Scuff or sand'} before the next coat, so that it can grip. If that coat is on already, let it harden fully and test it in a hidden spot with a fingernail; where it flakes or peels, sand back to a sound coat and recoat.`
  }
}

function tooSoon(facts: AdviceFacts): string {
  const again = lengthOfTime(roundedUp(facts.requiredMinutes))
  switch (facts.purpose) {
    case 'recoat':
      return isStain(facts.chemistry)
        ? `From the later coat on it needs at least another ${again} alone, and the coat on top must harden fully. After that, test in a hidden spot: with a fingernail for a dent, with tape for grip. If it dents, peels or stays hazy, sand it back and start again from the stain. Next time rub the stain with a white cloth first: no colour, no smell of solvent.`
        : `From the later coat on it needs at least another ${again} alone, and must harden fully. After that, press a fingernail in a hidden spot: if it dents, wait longer; if it has wrinkled, sand it level once it is hard and recoat.`
    case 'sand':
      return `If it clogged the paper or rolled up, stop, let it dry at least another ${again}, and sand again once it turns to powder.`
    case 'handle':
      return 'Take off what rests on it if you can, put nothing more on it, and look for prints and dents once it is hard; sand those level and recoat.'
  }
}

/** Up to here, in minutes, a computed wait is told to five minutes, beyond to the hour: paint knows no minutes. */
const finestUpTo = 3 * 60

/** A computed wait as finely as it means anything, and never shorter than it is. */
function roundedUp(minutes: number): number {
  const grain = minutes <= finestUpTo ? 5 : 60
  // A sum of many readings may miss a whole minute by a rounding error.
  return Math.ceil((minutes - 1e-6) / grain) * grain
}

function isStain(chemistry: Chemistry): boolean {
  return (
    chemistry === 'oil-stain' ||
    chemistry === 'gel-stain' ||
    chemistry === 'water-stain'
  )
}
