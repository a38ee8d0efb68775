import type {
  AmountEstimate,
  EstimateNeed,
} from '#core/materials/estimate-amount'
import type { Material } from '#core/materials/list-materials'
import { inSmallest } from '#core/materials/amounts'
import {
  type Fraction,
  decimalText,
  fractionOf,
  over,
  sumOf,
  times,
} from '#core/money/fraction'
import { unreachable } from '#core/result'
import type { Amount, AmountUnit } from '#core/shelf/product'
import { countOf, listOf } from '#core/write-ups/english-words'
import type { Units } from '#core/write-ups/language'

// 231 cubic inches of 25.4 mm to the US gallon, 128 fluid ounces of it (NIST Handbook 44, appendix C).
const millilitresPerFluidOunce = fractionOf(29.5735295625)
const litresPerGallon = fractionOf(3.785411784)
const squareMetresPerSquareFoot = fractionOf(0.09290304)

/** What the units that are not metric are called. */
const unitWords: Readonly<Partial<Record<AmountUnit, string>>> = {
  'us-gal': 'US gal',
  'us-qt': 'US qt',
  'us-pt': 'US pt',
  'us-fl-oz': 'US fl oz',
  'imp-gal': 'imperial gal',
  'imp-pt': 'imperial pt',
  'imp-fl-oz': 'imperial fl oz',
}

/** A hundred millilitres or grams and more are told whole: no can is poured or weighed better. */
function readable(value: Fraction, unit: AmountUnit): string {
  const isWhole =
    (unit === 'ml' || unit === 'g') && decimalText(value, 0).length > 2
  return decimalText(value, isWhole ? 0 : 3)
}

/** An amount as it reads: `0.3 l`, `19.9 fl oz (588 ml)`, `1 US qt (946 ml)`, `4 sheets`. */
export function amountText(amount: Amount, units: Units): string {
  const { value, unit } = amount
  const number = readable(fractionOf(value), unit)
  switch (unit) {
    case 'l':
    case 'ml':
      return units === 'metric'
        ? `${number} ${unit}`
        : `${ouncesText(inSmallest(amount))} fl oz (${number} ${unit})`
    case 'us-gal':
    case 'us-qt':
    case 'us-pt':
    case 'us-fl-oz':
    case 'imp-gal':
    case 'imp-pt':
    case 'imp-fl-oz':
      return `${number} ${unitWords[unit] ?? unit} (${readable(inSmallest(amount), 'ml')} ml)`
    case 'lb':
    case 'oz':
      return `${number} ${unit} (${readable(inSmallest(amount), 'g')} g)`
    case 'yd':
    case 'ft':
      return `${number} ${unit} (${decimalText(inSmallest(amount), 2)} m)`
    case 'kg':
    case 'g':
    case 'm':
      return `${number} ${unit}`
    case 'sheet':
    case 'roll':
    case 'piece':
    case 'can':
      if (value > 0 && value < 1)
        return value === 0.5 ? `half a ${unit}` : `${number} of a ${unit}`
      return `${number} ${value === 1 ? unit : `${unit}s`}`
    default:
      return unreachable(unit)
  }
}

const smaller: Readonly<Partial<Record<AmountUnit, AmountUnit>>> = {
  l: 'ml',
  kg: 'g',
}

/** The same amount in the unit that it is poured or weighed in, where it is less than one litre or kilogram. */
export function inHandyUnit(amount: Amount): Amount {
  const unit = smaller[amount.unit]
  return unit === undefined || Math.abs(amount.value) >= 1
    ? amount
    : {
        value: Number(
          decimalText(times(fractionOf(amount.value), fractionOf(1000)), 3),
        ),
        unit,
      }
}

function ouncesText(millilitres: Fraction): string {
  return decimalText(over(millilitres, millilitresPerFluidOunce), 1)
}

/** Amounts in one phrase: `450 ml and 2 cans`. */
export function amountsText(amounts: readonly Amount[], units: Units): string {
  return amounts.map((amount) => amountText(amount, units)).join(' and ')
}

/** A volume that was reckoned, to the millilitre: nothing reckoned is known better. */
export function reckonedVolume(litres: Fraction, units: Units): string {
  const millilitres = times(litres, fractionOf(1000))
  return units === 'us'
    ? `${ouncesText(millilitres)} fl oz`
    : `${decimalText(millilitres, 0)} ml`
}

/** What is known of an amount: what was written down, what is reckoned in its place, and what is neither. */
export function amountLine(
  { amounts, stepsWithoutAmount, estimate }: Material,
  units: Units,
): string {
  const reckoned = estimate?.uses.length ?? 0
  const rest = stepsWithoutAmount - reckoned
  const told = [
    ...(amounts === null ? [] : [amountsText(amounts, units)]),
    ...(estimate === null
      ? []
      : [
          `about ${reckonedVolume(estimate.litres, units)} reckoned for ${uses(reckoned)}`,
        ]),
  ]
  if (told.length === 0) return 'Amount not written down'
  return `${listOf(told)}${rest === 0 ? '' : `, and ${uses(rest)} without an amount`}`
}

/** The same for who watches: what was used, as far as that is known; empty where nothing is. */
export function shownAmount(
  { amounts, stepsWithoutAmount, estimate }: Material,
  units: Units,
): string {
  const rest = stepsWithoutAmount - (estimate?.uses.length ?? 0)
  const told = [
    ...(amounts === null ? [] : [amountsText(amounts, units)]),
    ...(estimate === null
      ? []
      : [`about ${reckonedVolume(estimate.litres, units)}`]),
  ]
  if (told.length === 0) return ''
  return `${rest === 0 ? '' : 'at least '}${told.join(' and ')}`
}

function uses(count: number): string {
  return `${countOf(count)} ${count === 1 ? 'use' : 'uses'}`
}

const needWords: Readonly<Record<EstimateNeed, string>> = {
  'spread rate': 'the spread rate on the label',
  method: 'the method',
  area: 'the size of the surfaces',
}

/** What to give so that the rest can be reckoned; empty where nothing would help. */
export function needsLine({ needs }: Material): string {
  return needs.length === 0
    ? ''
    : `To reckon what was not measured, give ${listOf(needs.map((need) => needWords[need]))}.`
}

/** How an amount was reckoned: `1.90 m² ÷ (10 m²/l × 0.65) = 293 ml`. */
export function estimateArithmetic(use: AmountEstimate, units: Units): string {
  const spread = fractionOf(use.spreadSquareMetresPerLitre)
  const area =
    units === 'us'
      ? `${decimalText(over(use.area, squareMetresPerSquareFoot), 1)} ft²`
      : `${decimalText(use.area, 2)} m²`
  const rate =
    units === 'us'
      ? `${decimalText(over(times(spread, litresPerGallon), squareMetresPerSquareFoot), 0)} ft²/gal`
      : `${decimalText(spread, 2)} m²/l`
  const divisor =
    use.transfer === 1
      ? rate
      : `(${rate} × ${decimalText(fractionOf(use.transfer), 2)})`
  const thinned =
    use.thinningPercent === 0
      ? ''
      : `; thinned by ${decimalText(fractionOf(use.thinningPercent), 1)} to 100, ${reckonedVolume(
          times(
            use.litres,
            sumOf([
              fractionOf(1),
              over(fractionOf(use.thinningPercent), fractionOf(100)),
            ]),
          ),
          units,
        )} in the cup`
  const part =
    use.sittings > 1 ? `, a coat laid in ${use.sittings} sittings` : ''
  return `${area}${part} ÷ ${divisor} = ${reckonedVolume(use.litres, units)}${thinned}`
}
