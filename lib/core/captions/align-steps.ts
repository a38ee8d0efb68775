import { shortestChapter } from '#core/captions/chapter-length'
import { type Heard, hearSteps, turn } from '#core/captions/heard-steps'
import {
  likeliestStarts,
  type LikelyStart,
} from '#core/captions/likeliest-starts'
import { mendMisheard } from '#core/captions/mend-misheard'
import type { SpokenWord } from '#core/captions/spoken-words'
import { spreadStarts } from '#core/captions/spread-starts'
import { startChances } from '#core/captions/start-chances'
import { stepWords } from '#core/captions/step-words'
import { tellingOrders } from '#core/captions/telling-orders'
import { type Utterance, utterancesOf } from '#core/captions/utterances'
import type { Journal, Step } from '#core/journal/journal'

/** Where a step begins in what is said. */
export type StepStart = {
  readonly step: Step
  /** Seconds from the start of the video. */
  readonly at: number
  /** How likely it is that the step begins within ten seconds of it: 0 to 1. */
  readonly confidence: number
}

/** The beginnings that were found, in order of time. */
export type Alignment = {
  readonly starts: readonly StepStart[]
  /** Where the work is over and the result is shown. */
  readonly ending?: { readonly at: number; readonly confidence: number }
}

/**
 * Where each step of a journal begins in what is said: the best ways to lay the steps along the words, in their order
 * for the most part, where a step may be left out, spoken of again, announced before or told of after its turn. Of
 * pieces worked on by turns, each may be told of from beginning to end.
 *
 * @param steps in the order they were done
 * @returns beginnings at least ten seconds apart
 */
export function alignSteps(
  heard: readonly SpokenWord[],
  steps: readonly Step[],
  journal: Pick<Journal, 'pieces' | 'products'>,
): Alignment {
  const words = mendMisheard(
    heard,
    journal.products.map(({ name }) => name),
  )
  const utterances = utterancesOf(words)
  if (utterances.length === 0 || steps.length === 0) return { starts: [] }
  const heardIn = (order: readonly Step[]) => {
    const told = hearSteps(words, utterances, stepWords(order, journal))
    return { order, told, ...startChances(told) }
  }
  const asDone = heardIn(steps)
  const best = tellingOrders(steps, journal.pieces)
    .map(heardIn)
    .reduce(
      (before, one) =>
        one.fit - (before === asDone ? otherOrderCost : 0) > before.fit
          ? one
          : before,
      asDone,
    )
  const { order, told, chances } = best
  const likely = withoutEmpty(likeliestStarts(told, chances), told, utterances)
  const spread = spreadStarts(
    likely.map(({ state, utterance, chance }) => ({
      state,
      at: told.times[utterance] ?? 0,
      confidence: chance,
    })),
  )
  const ending = spread.find(({ state }) => state === told.ending)
  return {
    starts: spread.flatMap(({ state, at, confidence }) => {
      const step = order[state - 1]
      return step === undefined ? [] : [{ step, at, confidence }]
    }),
    ...(ending !== undefined && {
      ending: { at: ending.at, confidence: ending.confidence },
    }),
  }
}

/** So much better must another order than that of the work fit, as a logarithm. Common practice, no source. */
const otherOrderCost = 1

/**
 * An unlikely step must be spoken of, so much at least, before the next one is or in its own ten seconds. Common practice, no
 * source.
 */
const leastSaid = 0.3
const unlikely = 0.4

/**
 * Without steps of which nothing is said before the next one begins, or about there, though nobody turns to anything there
 * either: they were heard in what belongs to the next.
 */
function withoutEmpty(
  starts: readonly LikelyStart[],
  { times, said }: Heard,
  utterances: readonly Utterance[],
): readonly LikelyStart[] {
  return starts.filter(({ state, utterance, chance }, index) => {
    const near = (times[utterance] ?? 0) + shortestChapter
    const within = times.findLastIndex((at) => at <= near) + 1
    const next = starts[index + 1]?.utterance ?? utterances.length
    const until = Math.max(next, within)
    return (
      chance >= unlikely ||
      (utterances[utterance]?.opening ?? 0) >= turn ||
      (said[state] ?? [])
        .slice(utterance, until)
        .some((one) => one >= leastSaid)
    )
  })
}
