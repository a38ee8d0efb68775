import type { Air } from '#core/air/air'
import { type AirCourse, airAt } from '#core/air/air-course'
import { dewPoint } from '#core/air/dew-point'
import type { StepTime } from '#core/drying/judge-gap'
import { differenceWords, temperatureWords } from '#core/measures/temperature'
import type { Units } from '#core/measures/units-of-measure'
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
 *
 * @param units what they are written in
 */
export function airWarnings(
  step: { readonly id: string; readonly product: Product | undefined },
  time: StepTime,
  course: AirCourse,
  units: Units = 'metric',
): readonly TimelineWarning[] {
  const start = airAt(course, time.started.at)
  const end =
    time.started.at === time.finished.at
      ? start
      : (airAt(course, time.finished.at) ?? start)
  const first = start ?? end
  if (first === undefined || end === undefined) return []
  const { id: stepId, product } = step
  const cold =
    product === undefined
      ? undefined
      : coldDetail(product, Math.min(first.celsius, end.celsius), units)
  const damp =
    product === undefined
      ? undefined
      : dampDetail(product, Math.max(first.humidity, end.humidity))
  const dew = dewPointDetail(first, end, units)
  const warnings: TimelineWarning[] = []
  if (cold !== undefined)
    warnings.push({ kind: 'air-cold', stepId, detail: cold })
  if (damp !== undefined)
    warnings.push({ kind: 'air-damp', stepId, detail: damp })
  if (dew !== undefined)
    warnings.push({ kind: 'dew-point', stepId, detail: dew })
  return warnings
}

function coldDetail(
  product: Product,
  celsius: number,
  units: Units,
): string | undefined {
  const stated = product.label.minCelsius
  const limit = stated ?? usualLimits[product.chemistry]?.celsius
  if (limit === undefined || celsius >= limit) return undefined
  const words = (degrees: number) => temperatureWords(degrees, units, 1)
  const asked =
    stated === undefined
      ? `The label names no limit; ${words(limit)} is the usual one.`
      : `The label asks for at least ${words(limit)}.`
  return `It was ${words(celsius)} when this coat went on. ${asked} A coat this cold may never harden as it should: warm the room, the piece and the can first.`
}

function dampDetail(product: Product, humidity: number): string | undefined {
  const { chemistry } = product
  const stated = product.label.maxHumidity
  const limit = stated ?? usualLimits[chemistry]?.humidity
  if (limit !== undefined && humidity > limit) {
    const asked =
      stated === undefined
        ? `The label names no limit; ${limit} % is the usual one.`
        : `The label asks for at most ${limit} %.`
    return `It was ${tenths(humidity)} % when this coat went on. ${asked} Dry the air first, with dry heat or a dehumidifier.`
  }
  const mayBlush = chemistry === 'shellac' || chemistry === 'lacquer'
  return mayBlush && stated === undefined && humidity > blushHumidity
    ? `It was ${tenths(humidity)} % when this coat went on: above ${blushHumidity} % shellac and lacquer may turn milky. Look for blush once it is dry.`
    : undefined
}

function dewPointDetail(
  start: Air,
  end: Air,
  units: Units,
): string | undefined {
  const aboveAtStart = start.celsius - dewPoint(start)
  const aboveAtEnd = end === start ? aboveAtStart : end.celsius - dewPoint(end)
  const above = Math.min(aboveAtStart, aboveAtEnd)
  if (above >= leastAboveDewPointCelsius) return undefined
  const { celsius } = above === aboveAtStart ? start : end
  return `The air was ${temperatureWords(celsius, units, 1)}, only ${differenceWords(above, units, 1)} above its dew point, and below ${differenceWords(leastAboveDewPointCelsius, units, 1)} damp may settle on the surface. The air’s temperature stands in for the surface’s here: a piece from a cold van or store is colder still.`
}

function tenths(value: number): string {
  return `${Math.round(value * 10) / 10 + 0}`
}
