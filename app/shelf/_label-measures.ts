import {
  degreeSign,
  shownDegrees,
  typedCelsius,
} from '#core/measures/temperature'
import {
  shownSpreadRate,
  spreadRateSign,
  typedSpreadRate,
} from '#core/measures/spread-rate'
import type { Units } from '#core/measures/units-of-measure'
import { numberOf, textOf } from '../_form-state'

/** A quantity of a label that is typed in the owner's units and kept in metric ones. */
export type LabelMeasure = {
  readonly shown: (kept: number, units: Units) => number
  readonly typed: (number: number, units: Units) => number
  readonly sign: (units: Units) => string
  /** After the point, at most. */
  readonly digits: number
}

export const temperatureMeasure: LabelMeasure = {
  shown: shownDegrees,
  typed: typedCelsius,
  sign: degreeSign,
  digits: 1,
}

export const spreadRateMeasure: LabelMeasure = {
  shown: shownSpreadRate,
  typed: typedSpreadRate,
  sign: spreadRateSign,
  digits: 2,
}

/** What a field of the form holds for a kept value; empty where the label does not say. */
export function measureText(
  measure: LabelMeasure,
  kept: number | undefined,
  units: Units,
): string {
  if (kept === undefined) return ''
  const scale = 10 ** measure.digits
  // Adding zero turns a rounded -0 into 0.
  return String(Math.round(measure.shown(kept, units) * scale) / scale + 0)
}

/**
 * The value to keep for a field: what was typed, in metric units; undefined when it was left empty, NaN when it is no
 * number. What was not touched stays as it was kept, to the last digit: `NAME.was` carries it.
 */
export function measureOf(
  form: FormData,
  name: string,
  measure: LabelMeasure,
  units: Units,
): number | undefined {
  const typed = numberOf(form, name)
  if (typed === undefined) return undefined
  // Written by us, not typed: all that a number can be, exponents too.
  const was = Number(textOf(form, `${name}.was`) ?? NaN)
  return Number.isFinite(was) &&
    textOf(form, name) === measureText(measure, was, units)
    ? was
    : measure.typed(typed, units)
}
