import { surfaceAreas } from '#core/film/surface-area'
import type { Journal, Step } from '#core/journal/journal'
import { pieceWeights } from '#core/materials/product-uses'
import { type TimedStep, stepsInOrder } from '#core/materials/steps-in-order'
import { allocate } from '#core/money/allocate'
import {
  type Fraction,
  fractionOf,
  over,
  roundHalfAway,
  sumOf,
  times,
} from '#core/money/fraction'
import type { JobBooks, Rates, StepHours } from '#core/money/job-books'
import {
  type Instant,
  millisecondsPerMinute,
  minutesPerHour,
} from '#core/units'

/** The hands-on time of one step, in whole minutes. */
export type StepWork = {
  readonly stepId: string
  /** What the time rests on: the owner's correction, the step's photos or typed times, or nothing. */
  readonly basis: 'corrected' | 'span' | 'unknown'
  /** Null while nothing tells. */
  readonly minutes: number | null
  /** Longer than hands stay on furniture at a stretch: a wait may be in it. */
  readonly isLong: boolean
  /** For each piece of the job, in their order; they add up to `minutes`. */
  readonly byPiece: readonly number[]
}

/** Set-up and clean-up of the spraying that went on in one go. */
export type SpraySession = {
  readonly stepIds: readonly string[]
  readonly setUpMinutes: number
  readonly cleanUpMinutes: number
  /** Pieces of this job and of others that shared them. */
  readonly pieces: number
  readonly otherPieces: number
  /** This job's share of set-up and clean-up. */
  readonly minutes: number
  readonly byPiece: readonly number[]
}

/** The hours of a job. */
export type WorkHours = {
  readonly steps: readonly StepWork[]
  readonly sessions: readonly SpraySession[]
  readonly other: readonly {
    readonly id: string
    readonly words: string
    readonly minutes: number
    readonly byPiece: readonly number[]
  }[]
  readonly minutes: number
  readonly byPiece: readonly number[]
  /** Steps whose time nothing tells: the hours are at least these. */
  readonly unknownSteps: number
}

/** Sprayings of one product with no more than this between them share the set-up. Common practice, no source. */
const sessionGapMinutes = 60
/** A span longer than this may have a wait in it. Common practice, no source. */
const longMinutes = 4 * minutesPerHour

/**
 * The hands-on hours of a job: each step from its first to its last photo or typed time unless corrected, set-up and
 * clean-up of spraying shared over the pieces sprayed together, and work that is no step.
 *
 * One person has two hands: where the spans of two steps overlap, that time is shared between them and counted once.
 * Waiting and drying are no work; nothing between the steps is counted.
 */
export function workHours(
  journal: Journal,
  books: Pick<JobBooks, 'hours' | 'work'>,
  rates: Pick<Rates, 'setUpMinutes' | 'cleanUpMinutes'>,
): WorkHours {
  const timed = stepsInOrder(journal)
  const areas = surfaceAreas(journal.pieces)
  const corrections = new Map(books.hours.map((one) => [one.stepId, one]))
  const spans = spanMinutes(
    timed.filter(
      ({ step }) => corrections.get(step.id)?.workMinutes === undefined,
    ),
  )
  const steps = timed.map(({ step, started, finished }): StepWork => {
    const corrected = corrections.get(step.id)?.workMinutes
    const minutes = corrected ?? spans.get(step.id) ?? null
    return {
      stepId: step.id,
      basis:
        corrected !== undefined
          ? 'corrected'
          : minutes === null
            ? 'unknown'
            : 'span',
      minutes,
      isLong:
        corrected === undefined &&
        started !== undefined &&
        finished !== undefined &&
        finished.at - started.at > longMinutes * millisecondsPerMinute,
      byPiece: allocate(
        minutes ?? 0,
        pieceWeights(step, journal.pieces, areas),
      ),
    }
  })
  const sessions = spraySessions(timed).map((own) =>
    sessionOf(own, journal, corrections, rates),
  )
  const other = books.work.map(({ id, words, minutes, pieceId }) => ({
    id,
    words,
    minutes,
    byPiece: allocate(
      minutes,
      journal.pieces.map((piece) =>
        fractionOf(pieceId === undefined || pieceId === piece.id ? 1 : 0),
      ),
    ),
  }))
  const all = [...steps, ...sessions, ...other]
  return {
    steps,
    sessions,
    other,
    minutes: all.reduce((sum, one) => sum + (one.minutes ?? 0), 0),
    byPiece: journal.pieces.map((_, index) =>
      all.reduce((sum, one) => sum + (one.byPiece[index] ?? 0), 0),
    ),
    unknownSteps: steps.filter(({ minutes }) => minutes === null).length,
  }
}

/** The whole minutes of each step that has a span; a moment alone is none. */
function spanMinutes(timed: readonly TimedStep[]): ReadonlyMap<string, number> {
  const spans = timed.flatMap(({ step, started, finished }) =>
    started !== undefined && finished !== undefined && finished.at > started.at
      ? [{ id: step.id, from: started.at, to: finished.at }]
      : [],
  )
  const shares = new Map<string, Fraction[]>(spans.map(({ id }) => [id, []]))
  for (const [from, to] of stretches(spans)) {
    const during = spans.filter((one) => one.from <= from && to <= one.to)
    for (const { id } of during) {
      shares
        .get(id)
        ?.push(over(fractionOf(to - from), fractionOf(during.length)))
    }
  }
  return new Map(
    [...shares].map(([id, parts]) => [
      id,
      Number(
        roundHalfAway(over(sumOf(parts), fractionOf(millisecondsPerMinute))),
      ),
    ]),
  )
}

/** The stretches between one beginning or end and the next. */
function stretches(
  spans: readonly { readonly from: Instant; readonly to: Instant }[],
): readonly (readonly [Instant, Instant])[] {
  const ends = [...new Set(spans.flatMap(({ from, to }) => [from, to]))].sort(
    (one, other) => one - other,
  )
  return ends.flatMap((from, index) => {
    const to = ends[index + 1]
    return to === undefined ? [] : [[from, to] as const]
  })
}

/** The sprayings that went on in one go: of one product, with little time between them. */
function spraySessions(
  timed: readonly TimedStep[],
): readonly (readonly Step[])[] {
  const sessions: { steps: Step[]; until: Instant | undefined }[] = []
  for (const { step, started, finished } of timed) {
    if (step.method !== 'spray') continue
    const last = sessions.findLast(
      ({ steps }) => steps[0]?.productId === step.productId,
    )
    const joins =
      last?.until !== undefined &&
      started !== undefined &&
      started.at - last.until <= sessionGapMinutes * millisecondsPerMinute
    if (joins) {
      last.steps.push(step)
      last.until = later(last.until, finished?.at)
    } else {
      sessions.push({ steps: [step], until: finished?.at ?? started?.at })
    }
  }
  return sessions.map(({ steps }) => steps)
}

function later(
  one: Instant | undefined,
  other: Instant | undefined,
): Instant | undefined {
  return one === undefined || (other !== undefined && other > one) ? other : one
}

function sessionOf(
  steps: readonly Step[],
  { pieces }: Journal,
  corrections: ReadonlyMap<string, StepHours>,
  rates: Pick<Rates, 'setUpMinutes' | 'cleanUpMinutes'>,
): SpraySession {
  const corrected = steps.flatMap(({ id }) => corrections.get(id) ?? [])
  const setUpMinutes =
    corrected.find((one) => one.setUpMinutes !== undefined)?.setUpMinutes ??
    rates.setUpMinutes ??
    0
  const cleanUpMinutes =
    corrected.findLast((one) => one.cleanUpMinutes !== undefined)
      ?.cleanUpMinutes ??
    rates.cleanUpMinutes ??
    0
  const otherPieces = Math.max(0, ...corrected.map((one) => one.otherPieces))
  const touched = pieces.map((piece) =>
    steps.some((step) =>
      step.surfaces.some((on) =>
        piece.surfaces.some((surface) => surface.id === on.surfaceId),
      ),
    ),
  )
  const own = touched.filter(Boolean).length
  const minutes =
    own === 0
      ? 0
      : Number(
          roundHalfAway(
            over(
              times(fractionOf(setUpMinutes + cleanUpMinutes), fractionOf(own)),
              fractionOf(own + otherPieces),
            ),
          ),
        )
  return {
    stepIds: steps.map(({ id }) => id),
    setUpMinutes,
    cleanUpMinutes,
    pieces: own,
    otherPieces,
    minutes,
    byPiece: allocate(
      minutes,
      touched.map((is) => fractionOf(is ? 1 : 0)),
    ),
  }
}
