import type { Air } from '#core/air/air'
import type { Purpose } from '#core/drying/dry-check'
import { mostSlowdown, standardAir } from '#core/drying/drying-speed'
import type { MeanAir } from '#core/drying/mean-air'
import { temperatureWords } from '#core/measures/temperature'
import type { Units } from '#core/measures/units-of-measure'
import type { ReferenceAir } from '#core/shelf/product'
import { lengthOfTime } from '#core/time/length-of-time'

/** What led from the label's time to the wait that was needed. Times in minutes. */
export type DryingFacts = {
  readonly purpose: Purpose
  /** Which of the label's times was taken. */
  readonly basis: Purpose
  readonly labelMinutes: number
  /** Undefined when the label does not state its air. */
  readonly reference: Partial<ReferenceAir> | undefined
  readonly isModelled: boolean
  readonly air: MeanAir
  readonly requiredMinutes: number
  /** Whether part of the time was too cold or too damp for an estimate. */
  readonly isPoor: boolean
  /** How many times longer the film takes for its thickness. */
  readonly filmFactor: number
  /** The film over the label's, and what it was reckoned from; undefined when not known. */
  readonly filmRatio?: number | undefined
  readonly filmWords?: string | undefined
  /** What the sentences are written in. */
  readonly units: Units
}

const timeNames: Record<Purpose, string> = {
  recoat: 'recoat time',
  sand: 'sanding time',
  handle: 'handling time',
}

/** Readings are taken to cover a time when they tell of this share of it. */
const coveringShare = 0.99

/** A shorter lengthening than this, in minutes, is not worth a word. */
const leastLengtheningMinutes = 0.5

/** Temperature and humidity in words, to the whole degree and percent: `14 °C and 78 %`, `57 °F and 78 %`. */
export function airInWords(air: Air, units: Units): string {
  return `${temperatureWords(air.celsius, units)} and ${Math.round(air.humidity)} %`
}

/** The label's time, the air, and the wait they ask for, as sentences for the owner. */
export function dryingSentences(facts: DryingFacts): string {
  if (facts.labelMinutes === 0) return 'The label asks for no wait.'
  return `${labelSentence(facts)} ${airSentences(facts)}`
}

function labelSentence(facts: DryingFacts): string {
  const time = lengthOfTime(facts.labelMinutes, 'up')
  const label = facts.isModelled
    ? `${time} ${referenceInWords(facts.reference, facts.units)}`
    : time
  return facts.basis === facts.purpose
    ? `Label: ${label}.`
    : `The label gives no ${timeNames[facts.purpose]}, so its ${timeNames[facts.basis]} is the least: ${label}.`
}

function referenceInWords(
  { celsius, humidity }: Partial<ReferenceAir> = {},
  units: Units,
): string {
  if (celsius === undefined && humidity === undefined)
    return `(it names no air, so ${airInWords(standardAir, units)} is taken)`
  if (humidity === undefined)
    return `at ${temperatureWords(celsius ?? standardAir.celsius, units)} (it names no humidity, so ${standardAir.humidity} % is taken)`
  return celsius === undefined
    ? `at ${Math.round(humidity)} % (it names no temperature, so ${temperatureWords(standardAir.celsius, units)} is taken)`
    : `at ${airInWords({ celsius, humidity }, units)}`
}

function airSentences(facts: DryingFacts): string {
  const required = lengthOfTime(facts.requiredMinutes)
  const isLonger =
    facts.requiredMinutes - facts.labelMinutes > leastLengtheningMinutes
  const film = filmSentence(facts)
  if (!facts.isModelled || facts.air.air === undefined) {
    const why = facts.isModelled
      ? 'There are no air readings for that time, so that air is assumed.'
      : 'What the air does to this kind of product is not known, so the label stands as it is.'
    return `${why}${film}${isLonger ? ` That makes about ${required}.` : ''}`
  }
  const air = airInWords(facts.air.air, facts.units)
  const partly =
    facts.air.share < coveringShare
      ? ' Readings cover only part of that time; the label’s air is assumed for the rest.'
      : ''
  if (facts.isPoor) {
    return `It was ${air}: for part of the time too cold or too damp to tell, more than ${mostSlowdown} times slower than on the label or outside what can be estimated. At least ${required}.${film}${partly}`
  }
  return isLonger
    ? `It was ${air}, so about ${required}.${film}${partly}`
    : `It was ${air}, which is no slower, and a label’s time is never shortened.${film}${partly}`
}

/** What the thickness of the coat does to the wait; empty, or begins with a space. */
function filmSentence({
  filmFactor,
  filmRatio,
  filmWords,
}: DryingFacts): string {
  if (filmFactor <= 1) return ''
  const reckoned =
    filmRatio === undefined || filmWords === undefined
      ? 'The coat is thick'
      : `The coat is ${filmRatio.toFixed(1)} times as thick as the label’s (${filmWords})`
  return ` ${reckoned}, which takes ${filmFactor.toFixed(1)} times as long.`
}
