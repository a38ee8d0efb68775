import { airCourse } from '#core/air/air-course'
import type { DryCheck } from '#core/drying/dry-check'
import { type DryingClocks, dryingClocks } from '#core/drying/drying-clock'
import { forecastNext } from '#core/drying/forecast-next'
import type { DryingCoat, StepTime } from '#core/drying/judge-gap'
import { type Preparation, labelTimes } from '#core/drying/recoat-windows'
import { filmInWords, filmOfStep } from '#core/film/film-of-step'
import { surfaceAreas } from '#core/film/surface-area'
import { isCoatLike, isCoating } from '#core/finish/is-coat-like'
import { purposeOf } from '#core/finish/purpose-of'
import type {
  Journal,
  Photo,
  Piece,
  Step,
  Surface,
} from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Product } from '#core/shelf/product'
import type { Units } from '#core/measures/units-of-measure'
import { coatInSentence } from '#core/write-ups/english-steps'
import { ordinalOf } from '#core/write-ups/english-words'
import { airWarnings } from '#core/timeline/air-warnings'
import { readingWarnings } from '#core/timeline/reading-warnings'
import { camerasInWords, settleGap } from '#core/timeline/settle-gap'
import {
  type StepTimes,
  arrivalClock,
  clockOf,
  stepTimes,
  typedClock,
  uncheckedCameras,
} from '#core/timeline/step-times'
import type {
  Forecast,
  Lane,
  LaneStep,
  Timeline,
  TimelineWarning,
} from '#core/timeline/timeline'

/** A step with all that bears on it, on one surface. */
type SurfaceStep = {
  readonly step: Step
  readonly kind: StepKind
  readonly productId: string | undefined
  readonly coat: number | undefined
  /** The product with its film, where it went on thicker than the label's. */
  readonly product: (Product & DryingCoat) | undefined
  readonly times: StepTimes | undefined
}
type TimedStep = SurfaceStep & { readonly times: StepTimes }

/** What all lanes of a job share. */
type Context = {
  readonly clocks: DryingClocks
  readonly cameraNames: ReadonlyMap<string, string>
  /** Whether times come from more than one clock, so that an unchecked one can be wrong against another. */
  readonly hasOtherClocks: boolean
  readonly units: Units
}

/**
 * The timeline of a job: what was done to each surface, whether each coat had dried for the step that
 * followed, what comes next, and what else the owner should know.
 *
 * There is a lane for every surface of every piece, in their order. A coat is held against the first step
 * that touches it, and against the next coat where others come between.
 *
 * @param units what its sentences are written in; no verdict depends on them
 */
export function readTimeline(
  journal: Journal,
  units: Units = 'metric',
): Timeline {
  const unchecked = uncheckedCameras(journal)
  const cameraNames = new Map(
    journal.cameras.map((camera) => [camera.id, camera.name]),
  )
  const course = airCourse(journal.air)
  const areas = surfaceAreas(journal.pieces)
  const allClocks = clocksBehind(journal)
  const context: Context = {
    clocks: dryingClocks(course),
    cameraNames,
    hasOtherClocks: allClocks.size > 1,
    units,
  }
  const photoOf = new Map(journal.photos.map((photo) => [photo.id, photo]))
  const productOf = new Map(
    journal.products.map((product) => [product.id, product]),
  )
  const stepsOn = new Map<string, SurfaceStep[]>()
  const coatTimes: StepTime[] = []
  const warnings: TimelineWarning[] = clockWarnings(
    unchecked,
    allClocks.size > 1,
    cameraNames,
  )
  for (const step of journal.steps) {
    const used =
      step.productId === undefined ? undefined : productOf.get(step.productId)
    const product =
      used === undefined ? undefined : withFilm(used, step, areas, units)
    const times = stepTimes(step, photosOf(step, photoOf), unchecked)
    let isCoat = false
    for (const { surfaceId, coat } of step.surfaces) {
      const onSurface: SurfaceStep = {
        step,
        kind: step.kind,
        productId: step.productId,
        coat,
        product,
        times,
      }
      isCoat ||= isCoating(onSurface)
      const others = stepsOn.get(surfaceId)
      if (others === undefined) stepsOn.set(surfaceId, [onSurface])
      else others.push(onSurface)
    }
    if (times === undefined) {
      warnings.push({
        kind: 'no-time',
        stepId: step.id,
        detail: `Nothing tells when this step (${step.kind}) was done, so no wait before or after it is checked. Add a photo of it or type its time.`,
      })
    } else if (isCoat) {
      coatTimes.push(times.time)
      warnings.push(
        ...airWarnings({ id: step.id, product }, times.time, course, units),
      )
    }
    if (product !== undefined) warnings.push(...thinningWarning(step, product))
  }
  warnings.push(...readingWarnings(journal.air, coatTimes, units))
  const lanes = journal.pieces.flatMap((piece) =>
    piece.surfaces.map((surface) => {
      const steps = stepsOn.get(surface.id) ?? []
      const timed = steps.filter(isTimed).sort(byTime)
      const untimed = steps
        .filter((one) => !isTimed(one))
        .sort((one, other) => one.step.createdAt - other.step.createdAt)
      warnings.push(...orderWarnings(timed, piece, surface))
      const next = forecastOf(timed, context)
      return {
        piece: { id: piece.id, name: piece.name },
        surface: { id: surface.id, name: surface.name },
        steps: [...timed, ...untimed].map(laneStep),
        checks: checksOf(timed, untimed, context),
        ...(next !== undefined && { next }),
      } satisfies Lane
    }),
  )
  return { lanes, warnings }
}

/** A film within this ratio of the label's is an ordinary coat: amounts and sizes tell no better. Common practice, no source. */
const ordinaryFilmRatio = 1.1

function withFilm(
  product: Product,
  step: Step,
  areas: (surfaceId: string) => number | undefined,
  units: Units,
): Product & DryingCoat {
  const film = filmOfStep(step, product, areas)
  return film === undefined || film.ratio <= ordinaryFilmRatio
    ? product
    : { ...product, filmRatio: film.ratio, filmWords: filmInWords(film, units) }
}

const noPhotos: readonly Photo[] = []

function photosOf(
  step: Step,
  photoOf: ReadonlyMap<string, Photo>,
): readonly Photo[] {
  if (step.photoIds.length === 0) return noPhotos
  return step.photoIds
    .map((id) => photoOf.get(id))
    .filter((photo) => photo !== undefined)
}

function clocksBehind(journal: Journal): ReadonlySet<string> {
  const clocks = new Set(journal.photos.map(clockOf))
  if (
    journal.steps.some(
      (step) => step.startedAt !== undefined || step.finishedAt !== undefined,
    )
  )
    clocks.add(typedClock)
  return clocks
}

function isTimed(one: SurfaceStep): one is TimedStep {
  return one.times !== undefined
}

function byTime(one: TimedStep, other: TimedStep): number {
  return (
    one.times.time.started.at - other.times.time.started.at ||
    one.times.time.finished.at - other.times.time.finished.at ||
    one.step.createdAt - other.step.createdAt
  )
}

function laneStep({ step, coat, times }: SurfaceStep): LaneStep {
  const { id, kind, photoIds, productId } = step
  // Most steps by far, made at once: this runs for every step of a journal.
  if (coat !== undefined && productId !== undefined && times !== undefined) {
    const { started, finished } = times.time
    return { id, kind, photoIds, coat, productId, started, finished }
  }
  return {
    id,
    kind,
    photoIds,
    ...(coat !== undefined && { coat }),
    ...(productId !== undefined && { productId }),
    ...(times !== undefined && {
      started: times.time.started,
      finished: times.time.finished,
    }),
  }
}

function checksOf(
  timed: readonly TimedStep[],
  untimed: readonly SurfaceStep[],
  context: Context,
): readonly DryCheck[] {
  const checks: DryCheck[] = []
  timed.forEach((earlier, i) => {
    if (!isCoatLike(earlier)) return
    let prepared: Preparation | undefined
    let isTouched = false
    for (let j = i + 1; j < timed.length; j++) {
      const later = timed[j]
      if (later === undefined || later.kind === 'strip') return
      const purpose = purposeOf(later, earlier)
      const isFirstTouch = purpose !== undefined && !isTouched
      if (
        (purpose === 'recoat' || isFirstTouch) &&
        !isCoatMissing(earlier, later, untimed)
      ) {
        checks.push(
          settleGap(
            { earlier, later, purpose, prepared },
            earlier.product,
            context.clocks,
            context.cameraNames,
            context.units,
          ),
        )
      }
      if (purpose === 'recoat') return
      if (purpose !== undefined) isTouched = true
      prepared = preparationAfter(later.step, prepared)
    }
  })
  return checks
}

function preparationAfter(
  step: Step,
  before: Preparation | undefined,
): Preparation | undefined {
  if (step.kind === 'sand') return 'sand'
  return step.kind === 'scuff' ? (before ?? 'scuff') : before
}

/** Whether a coat without a time lies between two others by its number: then their wait says nothing. */
function isCoatMissing(
  earlier: SurfaceStep,
  later: SurfaceStep,
  untimed: readonly SurfaceStep[],
): boolean {
  if (untimed.length === 0 || earlier.kind !== later.kind) return false
  const first = earlier.coat ?? Infinity
  const last = later.coat ?? -Infinity
  return untimed.some(
    ({ kind, coat }) =>
      kind === earlier.kind &&
      coat !== undefined &&
      coat > first &&
      coat < last,
  )
}

function forecastOf(
  timed: readonly TimedStep[],
  context: Context,
): Forecast | undefined {
  const index = timed.findLastIndex(isCoatLike)
  const last = timed[index]
  if (last === undefined) return undefined
  const { step, product, times } = last
  if (product === undefined) {
    return {
      stepId: step.id,
      waitsFor: 'product',
      reason:
        'No product is named for this step, so it cannot be told when it is dry. Name the product in the step.',
    }
  }
  const cameras = times.doubted.filter((id) => id !== arrivalClock)
  const names = camerasInWords(cameras, context.cameraNames)
  if (times.isDoubtful && cameras.length > 0 && context.hasOtherClocks) {
    return {
      stepId: step.id,
      waitsFor: 'clock',
      reason: `Only photos of ${names} tell when this was done, and its clock has not been checked, so it cannot be told when it is dry. Set its clock in Workshop to settle it.`,
    }
  }
  const outlook = forecastNext(
    times.time === times.faceTime ? [times.time] : [times.time, times.faceTime],
    product,
    timed
      .slice(index + 1)
      .reduce<Preparation | undefined>(
        (prepared, later) => preparationAfter(later.step, prepared),
        undefined,
      ),
    context.clocks,
    context.units,
  )
  const { uses, ...coming } = outlook
  // Even the only clock of a job can be wrong against the one on the wall, by which people come back to a coat.
  const doubt =
    times.isDoubtful && cameras.length > 0
      ? `This goes by the clock of ${names}, which nobody has checked. Set its clock in Workshop to settle it.`
      : undefined
  return {
    stepId: step.id,
    ...coming,
    ...(outlook.readyAt === undefined && {
      waitsFor: saysWhen(product) ? 'air' : 'label',
    }),
    ...(doubt !== undefined && { doubt }),
    // Nothing stands on what soaked in or was washed off.
    ...(lasts(last) && { uses }),
    get reason() {
      return [
        outlook.reason,
        ...(doubt === undefined ? [] : [doubt]),
        ...(times.time === times.faceTime || cameras.length === 0
          ? []
          : [
              `Photos of ${names} widen this, since its clock has not been checked. Set its clock in Workshop to settle it.`,
            ]),
        // It was laid before its photo arrived, so it is dry no later than this says.
        ...(times.isDoubtful && times.doubted.includes(arrivalClock)
          ? [
              'Its photo carries no time, so this goes by when it arrived here; type the time of the photo if it was taken before.',
            ]
          : []),
      ].join(' ')
    },
  }
}

/** Whether the label tells the least wait for the next coat. */
function saysWhen({ label }: Product): boolean {
  return labelTimes(label, 'recoat')?.hasMinimum ?? false
}

function lasts({ kind }: SurfaceStep): boolean {
  return kind !== 'strip' && kind !== 'stain' && kind !== 'condition'
}

function clockWarnings(
  unchecked: ReadonlyMap<string, number>,
  hasOtherClocks: boolean,
  cameraNames: ReadonlyMap<string, string>,
): TimelineWarning[] {
  if (!hasOtherClocks) return []
  return [...unchecked].map(([cameraId, photos]) => ({
    kind: 'clock-unchecked',
    cameraId,
    detail: `Nobody has checked the clock of ${camerasInWords([cameraId], cameraNames)}, which took ${photos === 1 ? '1 photo' : `${photos} photos`} of this job. Waits between its photos and other times are unsure until you set its clock in Workshop.`,
  }))
}

function thinningWarning(
  step: Step,
  product: Product,
): readonly TimelineWarning[] {
  const { maxThinningPercent } = product.label
  const { thinningPercent } = step
  if (
    maxThinningPercent === undefined ||
    thinningPercent === undefined ||
    thinningPercent <= maxThinningPercent
  )
    return []
  return [
    {
      kind: 'thinning',
      stepId: step.id,
      detail: `Thinned by ${thinningPercent} %; the label allows ${maxThinningPercent === 0 ? 'none' : `at most ${maxThinningPercent} %`}. The label’s times no longer hold for certain, and the coat may run, dull or fail to bond.`,
    },
  ]
}

function orderWarnings(
  timed: readonly TimedStep[],
  piece: Piece,
  surface: Surface,
): readonly TimelineWarning[] {
  const warnings: TimelineWarning[] = []
  const highest = new Map<string, number>()
  for (const { step, coat } of timed) {
    if (coat === undefined) continue
    const before = highest.get(step.kind) ?? coat
    highest.set(step.kind, Math.max(before, coat))
    if (coat >= before) continue
    warnings.push({
      kind: 'order',
      stepId: step.id,
      detail: `${piece.name}, ${surface.name}: by their times ${coatInSentence(step.kind, coat)} comes after the ${ordinalOf(before)}. Correct the number of the coat, the time, or the clock of the camera.`,
    })
  }
  return warnings
}
