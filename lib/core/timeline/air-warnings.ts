import type { Air } from '#core/air/air'
import { type AirCourse, airAt } from '#core/air/air-course'
import { dewPoint } from '#core/air/dew-point'
import type { StepTime } from '#core/drying/judge-gap'
import type { Chemistry, Product } from '#core/shelf/product'
import type { TimelineWarning } from '#core/timeline/timeline'

/** Closer to the dew point than this, °C, damp may settle on the surface. Source: ISO 8502-4, written for steel. */
const leastAboveDewPointCelsius = 3

/**
 * What holds where a label is silent: too cold below, °C; too damp above, percent.
 * 10 °C and 85 % as on most labels; 7 °C for solvent-borne products is common practice, no source.
 */
const usualLimits: Partial<
  Record<Chemistry, { readonly celsius: number; readonly humidity: number }>
> = {
  'waterborne-acrylic': { celsius: 10, humidity: 85 },
  'waterborne-alkyd': { celsius: 10, humidity: 85 },
  'water-stain': { celsius: 10, humidity: 85 },
  'oil-alkyd': { celsius: 7, humidity: 85 },
  'oil-stain': { celsius: 7, humidity: 85 },
  'gel-stain': { celsius: 7, humidity: 85 },
  shellac: { celsius: 7, humidity: 85 },
  lacquer: { celsius: 7, humidity: 85 },
  aerosol: { celsius: 7, humidity: 85 },
}

/** Above this, percent, shellac and lacquer may turn milky. Common practice, no source. */
const blushHumidity = 70

/**
 * What was wrong with the air when a coat went on; nothing where no readings tell.
 *
 * The air at the start and at the end of the step count, the worse of the two. Its temperature stands in
 * for that of the surface.
 */
export function airWarnings(
  step: { readonly id: string; readonly product?: Product },
  time: StepTime,
  course: AirCourse,
): readonly TimelineWarning[] {
  const airs = [time.started.at, time.finished.at].flatMap(
    (at) => airAt(course, at) ?? [],
  )
  if (airs.length === 0) return []
  return [
    ...coldWarning(step.product, airs),
    ...dampWarning(step.product, airs),
    ...dewPointWarning(airs),
  ].map((warning) => ({ ...warning, stepId: step.id }))
}

type Warning = Pick<TimelineWarning, 'kind' | 'detail'>

function coldWarning(
  product: Product | undefined,
  airs: readonly Air[],
): readonly Warning[] {
  if (product === undefined) return []
  const stated = product.label.minCelsius
  const limit = stated ?? usualLimits[product.chemistry]?.celsius
  const coldest = Math.min(...airs.map((air) => air.celsius))
  if (limit === undefined || coldest >= limit) return []
  return [
    {
      kind: 'air-cold',
      detail: `It was ${tenths(coldest)} °C when this coat went on. ${stated === undefined ? `The label names no limit; ${limit} °C is the usual one.` : `The label asks for at least ${limit} °C.`} A coat this cold may never harden as it should: warm the room, the piece and the can first.`,
    },
  ]
}

function dampWarning(
  product: Product | undefined,
  airs: readonly Air[],
): readonly Warning[] {
  if (product === undefined) return []
  const stated = product.label.maxHumidity
  const limit = stated ?? usualLimits[product.chemistry]?.humidity
  const dampest = Math.max(...airs.map((air) => air.humidity))
  if (limit !== undefined && dampest > limit) {
    return [
      {
        kind: 'air-damp',
        detail: `It was ${tenths(dampest)} % when this coat went on. ${stated === undefined ? `The label names no limit; ${limit} % is the usual one.` : `The label asks for at most ${limit} %.`} Dry the air first, with dry heat or a dehumidifier.`,
      },
    ]
  }
  const mayBlush =
    product.chemistry === 'shellac' || product.chemistry === 'lacquer'
  if (mayBlush && stated === undefined && dampest > blushHumidity) {
    return [
      {
        kind: 'air-damp',
        detail: `It was ${tenths(dampest)} % when this coat went on: above ${blushHumidity} % shellac and lacquer may turn milky. Look for blush once it is dry.`,
      },
    ]
  }
  return []
}

function dewPointWarning(airs: readonly Air[]): readonly Warning[] {
  const [worst] = airs
    .map((air) => ({ air, above: air.celsius - dewPoint(air) }))
    .sort((one, other) => one.above - other.above)
  if (worst === undefined || worst.above >= leastAboveDewPointCelsius) return []
  return [
    {
      kind: 'dew-point',
      detail: `The air was ${tenths(worst.air.celsius)} °C, only ${tenths(worst.above)} °C above its dew point, and below ${leastAboveDewPointCelsius} °C damp may settle on the surface. The air’s temperature stands in for the surface’s here: a piece from a cold van or store is colder still.`,
    },
  ]
}

function tenths(value: number): string {
  return `${Math.round(value * 10) / 10 + 0}`
}
