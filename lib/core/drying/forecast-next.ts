import { airAt } from '#core/air/air-course'
import {
  type DryingClock,
  type DryingClocks,
  timeToRun,
} from '#core/drying/drying-clock'
import { dryingSentences } from '#core/drying/drying-sentences'
import { filmFactor } from '#core/drying/film-factor'
import type { DryingCoat, StepTime } from '#core/drying/judge-gap'
import { type Coated, openingOf } from '#core/drying/opening-of'
import { type ReadyFor, readyFor } from '#core/drying/ready-for'
import { meanAir } from '#core/drying/mean-air'
import {
  type Preparation,
  type TimeWindow,
  isOpenTo,
  labelTimes,
} from '#core/drying/recoat-windows'
import type { Units } from '#core/measures/units-of-measure'
import { lengthOfTime } from '#core/time/length-of-time'
import { type Instant, addMinutes, instant, minutesPerDay } from '#core/units'

/** One stretch of time in which the next coat may go on. */
export type ComingWindow = {
  /** When it opens: as early as the times and the air allow, and as late. */
  readonly opens: { readonly earliest: Instant; readonly latest: Instant }
  /** The careful end of what the times leave open. Absent: it stays open. */
  readonly closes?: Instant
  /** The other end, where the times leave any room. */
  readonly closesLatest?: Instant
  /** What must be done to the surface first; absent when the next coat may go on as it is. */
  readonly needs?: Preparation
}

/** What the label and the air say comes after a coat. Times are absent where the label does not say, or the air is too poor to tell. */
export type Outlook = {
  readonly readyAt?: { readonly earliest: Instant; readonly latest: Instant }
  /** As early as the times leave open: by then it is certainly not too late. */
  readonly recoatBy?: Instant
  /** As late as the times leave open, where that is not the same. */
  readonly recoatByLatest?: Instant
  /** As late as the times leave open: by then it is certainly over. */
  readonly curedBy?: Instant
  /** As early as the times leave open, where that is not the same. */
  readonly curedByEarliest?: Instant
  /** The label's windows in order, then the one that a scuff opens again; empty without `readyAt`. */
  readonly windows: readonly ComingWindow[]
  /** From when on the coat stands what comes after coating. */
  readonly uses: readonly ReadyFor[]
  /** Written when somebody reads it, since words take longer than all the rest; a copy by spreading leaves it behind. */
  readonly reason: string
}

/**
 * The judgement of a gap, forward in time: when the next coat may go on, by when it must, and when the
 * coat is hard.
 *
 * Where the readings end while it dries, `latest` goes on with the last day's course again (with the air of the last
 * reading, where readings tell of no whole day), `earliest` with the label's. Full cure is the label's own time: no model lengthens or shortens it.
 *
 * @param times the times of the coat: several where it is in doubt which to believe, at least one
 * @param prepared what was done to the coat since
 * @param units what its sentences are written in
 * @throws RangeError when there are no times
 */
export function forecastNext(
  times: readonly StepTime[],
  coat: DryingCoat,
  prepared: Preparation | undefined,
  clocks: DryingClocks,
  units: Units = 'metric',
): Outlook {
  if (times.length === 0)
    throw new RangeError('forecastNext: expected at least one time, got none')
  const coated: Coated = {
    started: least(times.map((time) => time.started.earliest)),
    startedLatest: instant(
      Math.max(...times.map((time) => time.started.latest)),
    ),
    earliest: least(times.map((time) => time.finished.earliest)),
    latest: instant(Math.max(...times.map((time) => time.finished.latest))),
  }
  const { cureDays } = coat.label
  const curedBy =
    cureDays === undefined
      ? undefined
      : addMinutes(coated.latest, cureDays * minutesPerDay)
  const curedByEarliest =
    cureDays === undefined || coated.earliest === coated.latest
      ? undefined
      : addMinutes(coated.earliest, cureDays * minutesPerDay)
  const label = labelTimes(coat.label, 'recoat')
  const ruling =
    label?.windows.find((window) => isOpenTo(window, prepared)) ??
    label?.windows[0]
  if (label === undefined || ruling === undefined) {
    return new ToldWhenRead(
      {
        readyAt: undefined,
        recoatBy: undefined,
        recoatByLatest: undefined,
        curedBy,
        curedByEarliest,
        windows: [],
        uses: readyFor(coated, coat, clocks),
      },
      () => ['The label gives no recoat time.', ...curingSentence(cureDays)],
    )
  }
  const clock = clocks(coat)
  const thickness =
    coat.filmRatio === undefined ? 1 : filmFactor(coat.filmRatio, 'recoat')
  const closing = label.open[prepared ?? 'none'][0]?.to ?? Infinity
  const recoat = closingOf(closing, coated, clock)
  const opens = label.hasMinimum
    ? openingOf(ruling.fromMinutes * thickness, coated, clock)
    : undefined
  return new ToldWhenRead(
    {
      readyAt: opens,
      recoatBy: recoat.closes,
      recoatByLatest: recoat.closesLatest,
      curedBy,
      curedByEarliest,
      windows:
        opens === undefined
          ? []
          : label.windows.flatMap((window) =>
              comingWindow(window, coated, clock, thickness, prepared),
            ),
      uses: readyFor(coated, coat, clocks),
    },
    () => {
      const required = timeToRun(
        clock.high,
        coated.earliest,
        ruling.fromMinutes * thickness,
      )
      return [
        label.hasMinimum
          ? dryingSentences({
              purpose: 'recoat',
              basis: label.basis,
              labelMinutes: ruling.fromMinutes,
              reference: coat.label.reference,
              isModelled: clock.isModelled,
              air: meanAir(
                clock,
                coated.earliest,
                addMinutes(coated.earliest, required),
              ),
              requiredMinutes: required,
              isPoor: opens === undefined,
              filmFactor: thickness,
              filmRatio: coat.filmRatio,
              filmWords: coat.filmWords,
              units,
            })
          : 'The label gives no least wait.',
        ...aheadSentence(clock, coated.latest, opens?.latest),
        ...(isOpenTo(ruling, prepared)
          ? []
          : [`The label asks for a ${ruling.needs ?? 'scuff'} first.`]),
        ...(closing === Infinity
          ? []
          : [
              `The next coat belongs on within ${lengthOfTime(closing, 'down')}; after that scuff or sand first.`,
            ]),
        ...(recoat.closes !== undefined &&
        opens !== undefined &&
        recoat.closes < opens.latest
          ? ['In this air that may be over before it is dry enough.']
          : []),
        ...curingSentence(cureDays),
      ]
    },
  )
}

/** The stretch of time that a window of the label comes to; none where the air is too poor to tell. */
function comingWindow(
  window: TimeWindow,
  coated: Coated,
  clock: DryingClock,
  thickness: number,
  prepared: Preparation | undefined,
): readonly ComingWindow[] {
  const opens = openingOf(window.fromMinutes * thickness, coated, clock)
  if (opens === undefined) return []
  const needs = isOpenTo(window, prepared) ? undefined : window.needs
  return [
    {
      opens,
      ...closingOf(window.toMinutes, coated, clock),
      ...(needs !== undefined && { needs }),
    },
  ]
}

/** An outlook without its words; what it lacks is undefined. */
type Found = {
  readonly [Key in Exclude<keyof Outlook, 'reason'>]-?: Outlook[Key] | undefined
} & Pick<Outlook, 'windows' | 'uses'>

/** A class for the reason that the judgement of a gap is one. */
class ToldWhenRead implements Outlook {
  declare readonly readyAt?: NonNullable<Outlook['readyAt']>
  declare readonly recoatBy?: Instant
  declare readonly recoatByLatest?: Instant
  declare readonly curedBy?: Instant
  declare readonly curedByEarliest?: Instant
  readonly windows: readonly ComingWindow[]
  readonly uses: readonly ReadyFor[]
  readonly #sentences: () => readonly string[]

  constructor(found: Found, sentences: () => readonly string[]) {
    if (found.readyAt !== undefined) this.readyAt = found.readyAt
    if (found.recoatBy !== undefined) this.recoatBy = found.recoatBy
    if (found.recoatByLatest !== undefined)
      this.recoatByLatest = found.recoatByLatest
    if (found.curedBy !== undefined) this.curedBy = found.curedBy
    if (found.curedByEarliest !== undefined)
      this.curedByEarliest = found.curedByEarliest
    this.windows = found.windows
    this.uses = found.uses
    this.#sentences = sentences
  }

  get reason(): string {
    return this.#sentences().join(' ')
  }
}

function curingSentence(cureDays: number | undefined): readonly string[] {
  return cureDays === undefined
    ? []
    : [
        `Fully cured after ${lengthOfTime(cureDays * minutesPerDay, 'up')} by the label, later where it stays cold or damp.`,
      ]
}

/** By which air the time after the last reading was reckoned; nothing where readings reach far enough. */
function aheadSentence(
  { course, comingDays, isModelled }: DryingClock,
  coated: Instant,
  ready: Instant | undefined,
): readonly string[] {
  const lastReading = course.at.at(-2)
  if (
    !isModelled ||
    ready === undefined ||
    lastReading === undefined ||
    ready <= lastReading ||
    airAt(course, coated) === undefined
  )
    return []
  return [
    comingDays === undefined
      ? 'After the last reading its air is taken to go on.'
      : 'After the last reading the air of the day before it is taken to come again.',
  ]
}

/** When a window closes, counted from the first stroke of the coat; empty where it stays open. */
function closingOf(
  minutes: number,
  coated: Coated,
  clock: DryingClock,
): Pick<ComingWindow, 'closes' | 'closesLatest'> {
  if (minutes === Infinity) return {}
  const closes = afterRunning(clock, coated.started, minutes)
  return coated.startedLatest > coated.started
    ? {
        closes,
        closesLatest: afterRunning(clock, coated.startedLatest, minutes),
      }
    : { closes }
}

function afterRunning(
  { window }: DryingClock,
  start: Instant,
  minutes: number,
): Instant {
  return addMinutes(start, timeToRun(window, start, minutes))
}

function least(instants: readonly Instant[]): Instant {
  return instant(Math.min(...instants))
}
