import type { Accumulation } from '#core/air/accumulation'
import type { DryCheck, Purpose, Verdict } from '#core/drying/dry-check'
import {
  type DryingClock,
  type DryingClocks,
  ranBetween,
  timeToRun,
} from '#core/drying/drying-clock'
import { dryingSentences } from '#core/drying/drying-sentences'
import { filmFactor } from '#core/drying/film-factor'
import { gapAdvice } from '#core/drying/gap-advice'
import { meanAir } from '#core/drying/mean-air'
import {
  type LabelTimes,
  type OpenStretch,
  type Preparation,
  type TimeWindow,
  closedBefore,
  isOpenTo,
  labelTimes,
} from '#core/drying/recoat-windows'
import { typicalSentence, typicalTimes } from '#core/drying/typical-times'
import type { Units } from '#core/measures/units-of-measure'
import type { Product } from '#core/shelf/product'
import { lengthOfTime } from '#core/time/length-of-time'
import { type Elapsed, type Span, elapsedBetween } from '#core/time/span'
import { type Minutes, addMinutes, minutes } from '#core/units'

/** When a step happened: `started` is not after `finished`. */
export type StepTime = { readonly started: Span; readonly finished: Span }

/** Two steps on one surface, and what the later asks of the earlier. */
export type Gap = {
  readonly earlier: StepTime
  readonly later: StepTime
  readonly purpose: Purpose
  /** What was done to the earlier coat in between. */
  readonly prepared?: Preparation | undefined
  /** Ids of the two steps, where the judgement is to name them. */
  readonly from?: string
  readonly to?: string
}

/** The coat that dries in a gap. */
export type DryingCoat = Pick<Product, 'chemistry' | 'label'> & {
  /** Where it is known, a silent label gets a word of what is typical for its kind. */
  readonly category?: Product['category']
  /** Dry film laid on, divided by the one the label's times are for; only where both are known. */
  readonly filmRatio?: number
  /** What that ratio was reckoned from, as it reads in a sentence. */
  readonly filmWords?: string
}

/** A dry check that names its steps only where the gap does. */
export type GapJudgement = Omit<DryCheck, 'from' | 'to'> &
  Partial<Pick<DryCheck, 'from' | 'to'>>

/**
 * Sums over many readings may miss a bound by a rounding error. A tenth of a millisecond, in minutes:
 * finer than any instant, so no real wait is ever stretched by it.
 */
const roundingMinutes = 1e-6

/**
 * The judgement on one gap.
 *
 * The least wait of any spot (start of the later step minus end of the earlier) is held against the
 * label's minimum, the greatest (end of the later minus start of the earlier) against its maximum. Where
 * the times or the air leave room for two verdicts it is `unsure`. The maximum is the label's, in plain
 * time: poor air never lengthens it.
 *
 * @param coat absent when no product is known for the earlier step
 * @param units what its sentences are written in; the verdict knows nothing of them
 * Source: the minimum as the integral of the drying speed, common practice, no source; speeds as in
 *   drying-speed.ts.
 */
export function judgeGap(
  gap: Gap,
  coat: DryingCoat | undefined,
  clocks: DryingClocks,
  units: Units = 'metric',
): GapJudgement {
  const times =
    coat === undefined ? undefined : labelTimes(coat.label, gap.purpose)
  if (coat === undefined || times === undefined) {
    const elapsed = elapsedBetween(gap.earlier.finished, gap.later.started)
    return {
      ...(gap.from !== undefined && { from: gap.from }),
      ...(gap.to !== undefined && { to: gap.to }),
      purpose: gap.purpose,
      elapsed,
      label: {},
      verdict: 'no-label',
      reason: `${coat === undefined ? 'No product is named for the earlier step' : `The label gives no ${missingTime[gap.purpose]}`}, so there is nothing to hold the wait against. ${waitSentence(elapsed)}`,
      advice:
        coat === undefined
          ? 'Name the product in the step.'
          : `Read the time off the can and add it on the Shelf.${typicalWords(coat)}`,
    }
  }
  return new ToldWhenRead(gap, coat, times, clocks(coat), units)
}

/**
 * A judgement whose sentences are written when somebody reads them: words take longer than all the rest. What they rest on
 * is found once more for the first of them, since keeping it for every gap of a journal costs more than finding it. For the
 * same reason no wait is kept that a subtraction gives, and of the gap only what is asked for again.
 *
 * A class, as few things of the core are: getters of the objects themselves would take half of the time of a timeline, and
 * getters of a class cost nothing. A copy by spreading therefore leaves `elapsed`, `reason` and `advice` behind; name them.
 */
class ToldWhenRead implements GapJudgement {
  declare readonly from?: string
  declare readonly to?: string
  readonly purpose: Purpose
  readonly label: DryCheck['label']
  readonly verdict: Verdict
  declare readonly required?: Minutes
  declare readonly dryness?: { readonly low: number; readonly high: number }
  readonly #earlier: StepTime
  readonly #later: StepTime
  readonly #prepared: Preparation | undefined
  readonly #coat: DryingCoat
  readonly #clock: DryingClock
  readonly #units: Units
  #told: Told | undefined

  constructor(
    gap: Gap,
    coat: DryingCoat,
    times: LabelTimes,
    clock: DryingClock,
    units: Units,
  ) {
    const found = findingsOn(gap, coat, times, clock)
    const { fromMinutes } = found.window
    if (gap.from !== undefined) this.from = gap.from
    if (gap.to !== undefined) this.to = gap.to
    this.purpose = gap.purpose
    this.label = found.window.shown
    this.verdict = found.verdict
    this.#earlier = gap.earlier
    this.#later = gap.later
    this.#prepared = gap.prepared
    this.#coat = coat
    this.#clock = clock
    this.#units = units
    if (!times.hasMinimum) return
    this.required = minutes(found.required)
    if (fromMinutes > 0) {
      this.dryness = {
        low: found.waits.dry.low / fromMinutes,
        high: found.waits.dry.high / fromMinutes,
      }
    }
  }

  get elapsed(): Elapsed {
    return elapsedBetween(this.#earlier.finished, this.#later.started)
  }

  get reason(): string {
    return reasonOf(this.#whatIsTold(), this.elapsed)
  }

  get advice(): string {
    return adviceOf(this.#whatIsTold(), this.elapsed)
  }

  #whatIsTold(): Told {
    return (this.#told ??= toldOf(
      {
        earlier: this.#earlier,
        later: this.#later,
        purpose: this.purpose,
        prepared: this.#prepared,
      },
      this.#coat,
      this.#clock,
      this.#units,
    ))
  }
}

/** What was found of a gap. */
type Found = {
  readonly thickness: number
  readonly waits: Waits
  readonly window: TimeWindow
  readonly required: number
  readonly isPoor: boolean
  readonly verdict: Verdict
}

/** What the sentences of a judgement rest on. */
type Told = {
  readonly found: Found
  readonly gap: Gap
  readonly coat: DryingCoat
  readonly times: LabelTimes
  readonly clock: DryingClock
  readonly units: Units
}

function toldOf(
  gap: Gap,
  coat: DryingCoat,
  clock: DryingClock,
  units: Units,
): Told {
  const times = labelTimes(coat.label, gap.purpose)
  if (times === undefined)
    throw new RangeError('toldOf: expected the label that was judged by')
  const found = findingsOn(gap, coat, times, clock)
  return { found, gap, coat, times, clock, units }
}

function findingsOn(
  gap: Gap,
  coat: DryingCoat,
  times: LabelTimes,
  clock: DryingClock,
): Found {
  const thickness =
    coat.filmRatio === undefined ? 1 : filmFactor(coat.filmRatio, gap.purpose)
  const waits = waitsOf(gap, times, clock, thickness)
  const verdict = verdictOn(waits, times, gap.prepared)
  const window = rulingWindow(verdict, waits, times, gap.prepared)
  const least = window.fromMinutes * thickness
  const end = gap.earlier.finished.at
  const required = Math.max(least, timeToRun(clock.high, end, least))
  const isPoor =
    clock.low !== clock.high &&
    timeToRun(clock.low, end, least) > required + roundingMinutes
  return {
    thickness,
    waits,
    window,
    required,
    isPoor,
    verdict:
      verdict === 'in-window' && !times.hasMinimum ? 'no-label' : verdict,
  }
}

function reasonOf(told: Told, elapsed: Elapsed): string {
  const { found, gap, coat, times, clock, units } = told
  const { waits, window, required, isPoor } = found
  const end = gap.earlier.finished.at
  const drying = times.hasMinimum
    ? dryingSentences({
        purpose: gap.purpose,
        basis: times.basis,
        labelMinutes: window.fromMinutes,
        reference: coat.label.reference,
        isModelled: clock.isModelled,
        air: meanAir(clock, end, addMinutes(end, required)),
        requiredMinutes: required,
        isPoor,
        filmFactor: found.thickness,
        filmRatio: coat.filmRatio,
        filmWords: coat.filmWords,
        units,
      })
    : 'The label gives no least wait.'
  return `${drying}${maximumSentences(window, waits, gap)} ${waitSentence(elapsed)}${betweenSentence(found, times, gap)}${outcomeSentences(found.verdict, gap, window, required, isPoor)}`
}

function adviceOf({ found, gap, coat }: Told, elapsed: Elapsed): string {
  return gapAdvice({
    verdict: found.verdict,
    purpose: gap.purpose,
    chemistry: coat.chemistry,
    requiredMinutes: found.required,
    needs: found.window.needs,
    isAirToBlame: found.isPoor && elapsed.low === elapsed.high,
  })
}

/** The waits of the spots of a surface in minutes, as well as they are known. */
type Waits = {
  /** The least wait in minutes of drying, per thickness of one ordinary coat. */
  readonly dry: Range
  /** The least and the greatest wait on the clock of recoat windows, where one of them has an end. */
  readonly least: Range
  readonly greatest: Range
}

type Range = { readonly low: number; readonly high: number }

/** What is told of a wait that nothing is held against: most labels give no end. */
const anyWait: Range = { low: 0, high: 0 }

function waitsOf(
  gap: Gap,
  times: LabelTimes,
  clock: DryingClock,
  thickness: number,
): Waits {
  const { earlier, later } = gap
  const low = ranWithin(clock.low, earlier.finished, later.started)
  const high =
    clock.high === clock.low
      ? low
      : ranWithin(clock.high, earlier.finished, later.started)
  return {
    dry:
      thickness === 1 && low === high
        ? low
        : { low: low.low / thickness, high: high.high / thickness },
    least: times.hasEnd
      ? ranWithin(clock.window, earlier.finished, later.started)
      : anyWait,
    greatest: times.hasEnd
      ? ranWithin(clock.window, earlier.started, later.finished)
      : anyWait,
  }
}

/** What a clock ran at least and at most between two moments that are known as spans. */
function ranWithin(clock: Accumulation, start: Span, end: Span): Range {
  const low = ranBetween(clock, start.latest, end.earliest)
  return {
    low,
    high:
      start.earliest === start.latest && end.earliest === end.latest
        ? low
        : ranBetween(clock, start.earliest, end.latest),
  }
}

type Certain = 'too-soon' | 'in-window' | 'past-window'

function verdictOn(
  waits: Waits,
  times: LabelTimes,
  prepared: Preparation | undefined,
): Certain | 'unsure' {
  const stretches = times.open[prepared ?? 'none']
  const { dry, least, greatest } = waits
  if (isExact(dry) && isExact(least) && isExact(greatest))
    return verdictAt(times, stretches, dry.low, least.low, greatest.low)
  const starts = times.windows.map((window) => window.fromMinutes)
  const ends = times.windows.map((window) => window.toMinutes)
  let verdict: Certain | undefined
  // A verdict changes only at a bound, so one look between each two bounds sees all of them.
  for (const oneDry of looks(dry, starts)) {
    for (const oneLeast of looks(least, ends)) {
      for (const oneGreatest of looks(greatest, ends)) {
        if (oneGreatest < oneLeast) continue
        const one = verdictAt(times, stretches, oneDry, oneLeast, oneGreatest)
        if (verdict !== undefined && verdict !== one) return 'unsure'
        verdict = one
      }
    }
  }
  return verdict ?? 'unsure'
}

function verdictAt(
  times: LabelTimes,
  stretches: readonly OpenStretch[],
  dry: number,
  least: number,
  greatest: number,
): Certain {
  let isOpen = false
  for (const { from, to } of stretches) {
    if (dry < from - roundingMinutes) continue
    if (greatest <= to + roundingMinutes) return 'in-window'
    if (least <= to + roundingMinutes) isOpen = true
  }
  return !isOpen &&
    times.windows.some((window) => window.fromMinutes > dry + roundingMinutes)
    ? 'too-soon'
    : 'past-window'
}

function isExact(range: Range): boolean {
  return range.low === range.high
}

function looks(range: Range, bounds: readonly number[]): readonly number[] {
  if (isExact(range)) return [range.low]
  const inside = bounds.filter(
    (bound) => bound > range.low && bound < range.high,
  )
  if (inside.length === 0) return [range.low, range.high]
  const edges = [range.low, ...inside, range.high].sort((a, b) => a - b)
  return edges.flatMap((edge, i) => {
    const next = edges[i + 1]
    return next === undefined ? [edge] : [edge, (edge + next) / 2]
  })
}

/** The window whose numbers explain the verdict. */
function rulingWindow(
  verdict: Certain | 'unsure',
  waits: Waits,
  times: LabelTimes,
  prepared: Preparation | undefined,
): TimeWindow {
  const { windows } = times
  const [first] = windows
  if (first === undefined)
    throw new RangeError('rulingWindow: expected at least one window, got none')
  if (windows.length === 1) return first
  switch (verdict) {
    case 'too-soon':
      return comingWindow(windows, waits.dry.high) ?? first
    case 'unsure':
      return (
        comingWindow(windows, waits.dry.low) ??
        lastStated(reachedWindows(windows, waits)) ??
        first
      )
    case 'in-window': {
      const reached = reachedWindows(windows, waits)
      return (
        reached.find(
          (window) =>
            window.isStated &&
            isOpenTo(window, prepared) &&
            waits.greatest.high <= window.toMinutes + roundingMinutes,
        ) ??
        lastStated(reached) ??
        first
      )
    }
    case 'past-window':
      return lastStated(reachedWindows(windows, waits)) ?? first
  }
}

/** The first window that a coat has not reached yet. */
function comingWindow(
  windows: readonly TimeWindow[],
  dry: number,
): TimeWindow | undefined {
  return windows.find((window) => window.fromMinutes > dry + roundingMinutes)
}

function reachedWindows(
  windows: readonly TimeWindow[],
  waits: Waits,
): readonly TimeWindow[] {
  return windows.filter(
    (window) => window.fromMinutes <= waits.dry.high + roundingMinutes,
  )
}

function lastStated(windows: readonly TimeWindow[]): TimeWindow | undefined {
  return windows.findLast((window) => window.isStated)
}

/** What is typical for the kind of a coat whose label is silent; empty, or begins with a space. */
function typicalWords({ chemistry, category }: DryingCoat): string {
  const typical =
    category === undefined ? undefined : typicalTimes(chemistry, category)
  return typical === undefined ? '' : ` ${typicalSentence(typical)}`
}

const missingTime: Record<Purpose, string> = {
  recoat: 'recoat time',
  sand: 'sanding or recoat time',
  handle: 'handling or recoat time',
}

function waitSentence(elapsed: Elapsed): string {
  if (elapsed.high < 0) return 'The steps overlap: there was no wait.'
  const high = lengthOfTime(elapsed.high, 'down')
  const low = lengthOfTime(Math.max(0, elapsed.low), 'down')
  return low === high
    ? `The wait was ${low}.`
    : `The wait was between ${low} and ${high}.`
}

/** That a window was open before, and when it closed; empty, or begins with a space. */
function betweenSentence(
  { verdict, window, waits }: Found,
  { windows }: LabelTimes,
  { prepared }: Gap,
): string {
  if (verdict !== 'too-soon') return ''
  const before = closedBefore(
    windows,
    window.fromMinutes,
    waits.greatest.low - roundingMinutes,
    prepared,
  )
  return before === undefined
    ? ''
    : ` That is between two windows: the one before closed after ${lengthOfTime(before.toMinutes, 'down')}.`
}

/** What the label says about the end of the window; empty, or begins with a space. */
function maximumSentences(window: TimeWindow, waits: Waits, gap: Gap): string {
  const { prepared } = gap
  const needs =
    window.needs !== undefined && window.isStated
      ? ` The label asks for a ${window.needs} first.`
      : ''
  if (window.toMinutes === Infinity) return needs
  const isShortened = waits.greatest.high > longestWait(gap) + roundingMinutes
  return `${needs} The next coat belongs on within ${lengthOfTime(window.toMinutes, 'down')}${isShortened ? ', and warm air shortens that' : ''}${prepared === undefined ? '' : `, or later after the ${prepared} it had`}.`
}

/** The greatest wait of any spot in plain time, in minutes. */
function longestWait({ earlier, later }: Gap): number {
  return Math.max(0, elapsedBetween(earlier.started, later.finished).high)
}

/** What came of it; empty, or begins with a space. */
function outcomeSentences(
  verdict: Verdict,
  gap: Gap,
  window: TimeWindow,
  required: number,
  isPoor: boolean,
): string {
  switch (verdict) {
    case 'past-window': {
      const longest = lengthOfTime(longestWait(gap), 'down')
      const why =
        window.needs === undefined
          ? ` Some of it waited ${longest}${gap.prepared === undefined ? ', with no scuff or sand in between' : ''}.`
          : ` There was no ${window.needs} in between.`
      return required > window.toMinutes
        ? `${why} In that air the window closed before the coat was dry enough.`
        : why
    }
    case 'unsure':
      return isPoor
        ? ' So it cannot be told whether it was dry enough.'
        : ' The times are not known well enough to tell on which side of the limit it fell.'
    case 'too-soon':
    case 'in-window':
    case 'no-label':
      return ''
  }
}
