import type { Air } from '#core/air/air'
import {
  deficitIn,
  vapourPressureDeficit,
} from '#core/air/vapour-pressure-deficit'
import { type Solvent, vapourPressure } from '#core/drying/vapour-pressure'
import type { Chemistry, Label, ReferenceAir } from '#core/shelf/product'

/** The air for which a label's times are taken to be stated when it does not say: ISO 3270, 23 °C and 50 %. */
export const standardAir: ReferenceAir = { celsius: 23, humidity: 50 }

/** The air that a label's times are taken to be stated for: what it does not name is that of {@link standardAir}. */
export function referenceAir({
  reference,
}: Pick<Label, 'reference'>): ReferenceAir {
  return { ...standardAir, ...reference }
}

/** Slower than this many times the label's time is no estimate any more. Common practice, no source. */
export const mostSlowdown = 6

/** The models are trusted between these temperatures, °C: water must not freeze. Common practice, no source. */
const coldestModelledCelsius = 0
const warmestModelledCelsius = 50

/** What a coat loses, or what it does, as it dries. */
export type Pace = 'water' | 'oxidation' | 'spirit' | 'alcohol' | 'lacquer'

/**
 * What sets the pace, by chemistry: the slowest of these rules. Nothing: the label stands as it is.
 * Common practice, no source, for the choice; water by Dalton's law.
 */
export const pacesOf: Record<Chemistry, readonly Pace[]> = {
  'waterborne-acrylic': ['water'],
  'waterborne-alkyd': ['water', 'oxidation'],
  'oil-alkyd': ['oxidation', 'spirit'],
  shellac: ['alcohol'],
  lacquer: ['lacquer'],
  'oil-stain': ['oxidation', 'spirit'],
  'water-stain': ['water'],
  'gel-stain': ['oxidation', 'spirit'],
  wax: [],
  paste: [],
  aerosol: ['oxidation'],
  other: [],
}

/**
 * How fast a coat dries, as a share of its speed in the label's air: at most 1, whatever the weather.
 *
 * `low` and `high` are the same where the models hold. Where it is too cold or too damp to tell, nothing
 * is counted in `low`, and at least a sixth in `high`.
 */
export type DryingSpeed = { readonly low: number; readonly high: number }

/**
 * How fast a coat of this chemistry dries in some air, against the label's air.
 *
 * @throws RangeError for air outside the ranges of `Air`
 */
export function dryingSpeed(
  chemistry: Chemistry,
  air: Air,
  reference: ReferenceAir,
): DryingSpeed {
  const shares = pacesOf[chemistry].map((pace) =>
    shareOf(paceIn(pace, air), paceIn(pace, reference)),
  )
  const share = Math.min(1, ...shares)
  return shares.length === 0 || isTrusted(share, air.celsius)
    ? { low: share, high: share }
    : { low: 0, high: mostOf(share) }
}

/**
 * How fast something goes in some air, each in units of its own.
 *
 * @throws RangeError for air outside the ranges of `Air`, where water is asked for
 */
export function paceIn(pace: Pace, air: Air): number {
  switch (pace) {
    case 'water':
      // Water leaves in proportion to the vapour-pressure deficit (Dalton).
      return vapourPressureDeficit(air)
    case 'oxidation':
      return oxidationAt(air.celsius)
    case 'spirit':
    case 'alcohol':
    case 'lacquer':
      return vapourPressure(solventOf[pace], air.celsius)
  }
}

/** How fast something goes, as {@link paceIn} has it, in many airs: `celsius` and `humidity` within the ranges of `Air`. */
export function pacesIn(
  pace: Pace,
  { celsius, humidity }: Record<'celsius' | 'humidity', Float64Array>,
): Float64Array {
  const paces = new Float64Array(celsius.length)
  // A loop for each: a year has many moments, and a number that passes through a call of any of several is made an object.
  switch (pace) {
    case 'water':
      for (let i = 0; i < paces.length; i++)
        paces[i] = deficitIn(celsius[i] ?? NaN, humidity[i] ?? NaN)
      return paces
    case 'oxidation':
      for (let i = 0; i < paces.length; i++)
        paces[i] = oxidationAt(celsius[i] ?? NaN)
      return paces
    case 'spirit':
    case 'alcohol':
    case 'lacquer': {
      const solvent = solventOf[pace]
      for (let i = 0; i < paces.length; i++)
        paces[i] = vapourPressure(solvent, celsius[i] ?? NaN)
      return paces
    }
  }
}

/** Oxidation doubles its speed every 10 °C: the usual rule of thumb. */
function oxidationAt(celsius: number): number {
  return Math.exp((Math.LN2 / 10) * celsius)
}

const solventOf: Record<Exclude<Pace, 'water' | 'oxidation'>, Solvent> = {
  spirit: 'n-decane',
  alcohol: 'ethanol',
  // The slow solvent rules the tail.
  lacquer: 'n-butyl acetate',
}

/** A pace as a share of the pace in the label's air. */
export function shareOf(pace: number, referencePace: number): number {
  // Air that holds no more water dries nothing: a label stated for it says nothing to scale by.
  return referencePace > 0 ? pace / referencePace : 1
}

/** Whether a modelled share (at most 1) may be counted on at a temperature. */
export function isTrusted(share: number, celsius: number): boolean {
  return (
    share * mostSlowdown >= 1 &&
    celsius >= coldestModelledCelsius &&
    celsius <= warmestModelledCelsius
  )
}

/** The most that a share which cannot be counted on may be. */
export function mostOf(share: number): number {
  return Math.max(share, 1 / mostSlowdown)
}

/**
 * How fast the time of an early recoat window runs: an aerosol's window closes sooner in warm air, and no
 * window ever stays open longer in cold.
 *
 * @param share how fast an aerosol hardens, as a share of its pace in the label's air; above 1 where it is warmer
 * @returns 1 or more
 * Common practice, no source: the same doubling every 10 °C as for oxidation.
 */
export function windowSpeed(share: number): number {
  return Math.max(1, share)
}
