import { type Air, warmestAirCelsius } from '#core/air/air'
import { saturationPressure } from '#core/air/saturation-pressure'
import type { Purpose } from '#core/drying/dry-check'
import { airInWords } from '#core/drying/drying-sentences'
import { dryingSpeed, referenceAir } from '#core/drying/drying-speed'
import { filmFactor } from '#core/drying/film-factor'
import type { DryingCoat } from '#core/drying/judge-gap'
import { labelTimes } from '#core/drying/recoat-windows'
import { differenceWords } from '#core/measures/temperature'
import type { Units } from '#core/measures/units-of-measure'
import type { Chemistry } from '#core/shelf/product'
import { lengthOfTime } from '#core/time/length-of-time'

/** One thing that would shorten a wait. */
export type Help =
  | {
      readonly kind: 'warmer'
      readonly byCelsius: number
      /** The air once it is warmer, with no water added. */
      readonly air: Air
      readonly minutes: number
      readonly sentence: string
    }
  | {
      readonly kind: 'drier'
      readonly air: Air
      readonly minutes: number
      readonly sentence: string
    }
  | { readonly kind: 'moving-air'; readonly sentence: string }

/** What would shorten a wait, and how long it is as things are. Minutes are of a whole wait, from the coat on. */
export type WhatHelps = {
  /** The label's minimum: nothing goes under it. */
  readonly floorMinutes: number
  /** As the air is; absent where it is too cold or too damp to tell. */
  readonly minutes?: number
  /** Empty where the wait is the label's already. */
  readonly helps: readonly Help[]
}

// Common practice, no source, for all of these.
/** A workshop is warmed by so much at most, °C, and to so much. */
const mostWarmer = 8
const warmestWorkshop = 25
/** What a dehumidifier brings a room to, percent. */
const driedHumidity = 45
/** A saving smaller than this share of the wait is not worth a word. */
const leastSaving = 0.05

/**
 * What would shorten the wait for a coat in this air: warming it, drying it, moving it. Undefined where the label gives
 * no time.
 *
 * Warming adds no water, so the same air gets drier as it gets warmer. Moving air gets a word and no number: no label
 * and no rule of the trade has one. Nothing brings a wait under the label's.
 *
 * @param air as it is now, within the ranges of `Air`
 * @param units what its sentences are written in
 */
export function whatHelps(
  coat: DryingCoat,
  purpose: Purpose,
  air: Air,
  units: Units = 'metric',
): WhatHelps | undefined {
  const window = labelTimes(coat.label, purpose)?.windows[0]
  if (window === undefined || window.fromMinutes <= 0) return undefined
  const thickness =
    coat.filmRatio === undefined ? 1 : filmFactor(coat.filmRatio, purpose)
  const floorMinutes = window.fromMinutes * thickness
  const wait = (there: Air) => waitIn(coat, there, floorMinutes)
  const now = wait(air)
  const saves = (minutes: number | undefined): minutes is number =>
    minutes !== undefined &&
    (now === undefined || now - minutes >= leastSaving * now)
  const helps: Help[] = []
  const warmer = warmestHelp(air, floorMinutes, wait)
  if (warmer !== undefined && saves(warmer.minutes)) {
    helps.push({
      kind: 'warmer',
      ...warmer,
      sentence: `${differenceWords(warmer.byCelsius, units)} warmer, with dry and flame-free heat, would make it ${inWords(warmer.minutes, floorMinutes)}: ${airInWords(warmer.air, units)}.`,
    })
  }
  if (air.humidity > driedHumidity && isWaterborne(coat.chemistry)) {
    const dried = { celsius: air.celsius, humidity: driedHumidity }
    const minutes = wait(dried)
    if (saves(minutes)) {
      helps.push({
        kind: 'drier',
        air: dried,
        minutes,
        sentence: `Dried to ${driedHumidity} % by a dehumidifier it would be ${inWords(minutes, floorMinutes)}.`,
      })
    }
  }
  if (helps.length > 0) {
    helps.push({
      kind: 'moving-air',
      sentence:
        'Gently moving air carries off what the coat gives off, most of all inside a carcass. By how much nobody can say, so the wait stays as reckoned; never blow dust onto a wet coat.',
    })
  }
  return {
    floorMinutes,
    ...(now !== undefined && { minutes: now }),
    helps,
  }
}

function waitIn(
  coat: DryingCoat,
  air: Air,
  floorMinutes: number,
): number | undefined {
  const speed = dryingSpeed(coat.chemistry, air, referenceAir(coat.label))
  return speed.low > 0 ? floorMinutes / speed.low : undefined
}

/** The least warming that brings the wait to the label's, or the most that a workshop stands. */
function warmestHelp(
  air: Air,
  floorMinutes: number,
  wait: (air: Air) => number | undefined,
):
  | { readonly byCelsius: number; readonly air: Air; readonly minutes: number }
  | undefined {
  // Vapour stays the same while air is warmed, so its share of what the air can hold falls.
  const vapour = air.humidity * saturationPressure(air.celsius)
  let best:
    | {
        readonly byCelsius: number
        readonly air: Air
        readonly minutes: number
      }
    | undefined
  for (let byCelsius = 1; byCelsius <= mostWarmer; byCelsius++) {
    const celsius = air.celsius + byCelsius
    if (celsius > Math.min(warmestWorkshop, warmestAirCelsius)) break
    const warmed = { celsius, humidity: vapour / saturationPressure(celsius) }
    const minutes = wait(warmed)
    if (minutes === undefined) continue
    best = { byCelsius, air: warmed, minutes }
    if (minutes <= floorMinutes) break
  }
  return best
}

function isWaterborne(chemistry: Chemistry): boolean {
  return (
    chemistry === 'waterborne-acrylic' ||
    chemistry === 'waterborne-alkyd' ||
    chemistry === 'water-stain'
  )
}

function inWords(minutes: number, floorMinutes: number): string {
  return minutes <= floorMinutes
    ? `${lengthOfTime(floorMinutes, 'up')}, the least by the label`
    : `about ${lengthOfTime(minutes)}`
}
