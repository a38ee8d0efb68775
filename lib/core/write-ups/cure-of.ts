import type { Camera, Journal, Step } from '#core/journal/journal'
import type { Product } from '#core/shelf/product'
import { stepTimes, uncheckedCameras } from '#core/timeline/step-times'
import type { Timeline } from '#core/timeline/timeline'
import {
  type Instant,
  instant,
  millisecondsPerMinute,
  minutesPerDay,
} from '#core/units'
import type { SurfaceWork } from '#core/write-ups/surface-work'

/** When the finish of a job is hard, as far as labels and times tell. */
export type Cure = {
  /** The latest moment at which the last coat can have ended. */
  readonly lastCoat: {
    readonly at: Instant
    readonly stepId: string
    /** Whether only a camera says so whose clock nobody has checked. */
    readonly doubtful: boolean
  }
  /** Of all whose label says; absent when none does, or when a last coat has no product. */
  readonly full?: {
    readonly at: Instant
    readonly days: number
    readonly product: Product
    readonly stepId: string
    /** The latest moment at which that coat can have ended. */
    readonly laidAt: Instant
    /** What the label alone comes to, counted from `laidAt`; never after `at`. */
    readonly byLabel: Instant
    /** The same from the latest end that photos without a sure time leave open: what is later still is the air's doing. */
    readonly byLatestPhoto: Instant
    /** Whether a coat that it may follow from is dated only by a clock that nobody has checked. */
    readonly doubtful: boolean
  }
  /** The cameras whose unchecked clocks this rests on. */
  readonly doubtedCameras: readonly Camera[]
  /** The products of last coats whose label gives no days to full cure. */
  readonly unlabelled: readonly Product[]
}

/**
 * When the last coat went on, and when all coats still there are fully cured.
 *
 * A label's days are a floor: the forecast of the timeline can make them longer, never shorter. Where a label does not say,
 * the rest is told without its coats, and its product is named in `unlabelled`.
 *
 * @returns undefined when no coat has a time
 */
export function cureOf(
  journal: Journal,
  works: readonly SurfaceWork[],
  timeline: Timeline | undefined,
): Cure | undefined {
  const unchecked = uncheckedCameras(journal)
  const timesOf = ({ photoIds, ...step }: Step) =>
    stepTimes(
      step,
      journal.photos.filter(({ id }) => photoIds.includes(id)),
      unchecked,
    )
  const coats = works.flatMap((work) => {
    const last = work.coats.at(-1)
    return work.coats.flatMap(({ step, finished }) => {
      if (finished === undefined) return []
      const times = timesOf(step)
      return [
        {
          step,
          ended: finished.latest,
          endedByPhotos: instant(
            Math.max(
              finished.latest,
              times?.faceTime.finished.latest ?? -Infinity,
            ),
          ),
          // A photo dated by its arrival is from before it: the date can only be too late, which is safe.
          doubts: times?.isDoubtful
            ? times.doubted.filter((id) => unchecked.has(id))
            : [],
          isLast: step.id === last?.step.id,
          product: journal.products.find((one) => one.id === step.productId),
          surfaceId: work.surface.id,
        },
      ]
    })
  })
  const [first, ...others] = coats
  if (!first) return undefined
  const last = others.reduce(
    (latest, coat) => (coat.ended > latest.ended ? coat : latest),
    first,
  )
  const unlabelled = [
    ...new Set(
      coats.flatMap(({ isLast, product }) =>
        isLast && product && product.label.cureDays === undefined
          ? [product]
          : [],
      ),
    ),
  ]
  const lastCoat = {
    at: last.ended,
    stepId: last.step.id,
    doubtful: last.doubts.length > 0,
  }
  const doubted = new Set(coats.flatMap(({ doubts }) => doubts))
  const doubtedCameras = journal.cameras.filter(({ id }) => doubted.has(id))
  const unnamed = coats.some(({ isLast, product }) => isLast && !product)
  if (unnamed) return { lastCoat, unlabelled, doubtedCameras }
  const cures = coats.flatMap((coat) => {
    const { step, ended, endedByPhotos, isLast, product, surfaceId } = coat
    const days = product?.label.cureDays
    if (!product || days === undefined) return []
    const curing = days * minutesPerDay * millisecondsPerMinute
    const byLabel = instant(ended + curing)
    const forecast = timeline?.lanes.find(
      (lane) => lane.surface.id === surfaceId,
    )?.next
    const byForecast =
      isLast && forecast?.stepId === step.id ? forecast.curedBy : undefined
    return [
      {
        at:
          byForecast !== undefined && byForecast > byLabel
            ? byForecast
            : byLabel,
        days,
        product,
        stepId: step.id,
        laidAt: ended,
        byLabel,
        byLatestPhoto: instant(endedByPhotos + curing),
        // Any coat with a wrong time may be the one that cures last.
        doubtful: doubted.size > 0,
      },
    ]
  })
  const full = cures.toSorted((a, b) => b.at - a.at)[0]
  return { lastCoat, ...(full && { full }), unlabelled, doubtedCameras }
}
