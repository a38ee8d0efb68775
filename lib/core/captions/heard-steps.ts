import type { SpokenWord } from '#core/captions/spoken-words'
import { type Mention, findMentions } from '#core/captions/find-mentions'
import { closingOf } from '#core/captions/closing-words'
import { outsetOf, plannedShare } from '#core/captions/foretold'
import { stem } from '#core/captions/stem'
import {
  coatAgainCost,
  enterCost,
  stepEvidence,
} from '#core/captions/step-evidence'
import { type StepWords, spokenGrits } from '#core/captions/step-words'
import type { Utterance } from '#core/captions/utterances'

/** Of each word within a step that does not speak of it. Common practice, no source, as are the figures below. */
const chatterCost = 0.012
/** A beginning may stand so long before the words that tell of it. */
const leadSeconds = 15
/** Whoever plainly turns to something new may take longer to come to it. */
const longLeadSeconds = 30
/** Each second of it speaks against it. */
const leadCost = 0.05
/** Steps share a video about evenly: so much speaks against one beginning as much out of place as the video is long. */
const placeCost = 2
/** Within this share of the video nothing speaks against it. */
const placeFree = 0.12
/** Words that say less than this for a beginning say nothing for it. */
const leastBegun = 0.7
/**
 * Whoever turns to something new ("four hours later", "right, next") may begin any step without a word of the trade: so
 * much is said for each, where the utterance opens at least so strongly.
 */
const unnamed = 0.3
export const turn = 0.65
/** A place that was named is still meant for so long. */
const focusSeconds = 12
/** The share of what is told of steps ahead of time that the introduction takes up, where it sounds so and where not. */
const foretold = { planned: 0.95, other: 0.3 } as const

/**
 * What each utterance says for each state. States are numbered from 0, the introduction, over the steps from 1 in their
 * order, to the ending.
 */
export type Heard = {
  /** When each utterance begins, in seconds. */
  readonly times: readonly number[]
  readonly ending: number
  /** `said[state][utterance]`: what speaks for being in the state. */
  readonly said: readonly (readonly number[])[]
  /** `begins[state][utterance]`: what speaks for the state beginning with it; -Infinity where nothing does. */
  readonly begins: readonly (readonly number[])[]
}

/**
 * What each utterance says for each step.
 *
 * @param steps in the order they were done
 */
export function hearSteps(
  words: readonly SpokenWord[],
  utterances: readonly Utterance[],
  steps: readonly StepWords[],
): Heard {
  const mentions = findMentions(words)
  const of = mentionsByUtterance(utterances, mentions)
  const stems = utterances.map(
    ({ first, last }) =>
      new Set(words.slice(first, last).map((word) => stem(word.text))),
  )
  const known = steps.flatMap((step) => step.grits)
  const grits = utterances.map(({ first, last }) =>
    spokenGrits(words, first, last, known).map(({ grit }) => grit),
  )
  const focus = placesInFocus(utterances, stems, steps)
  const evidence = steps.map((step) =>
    utterances.map((_, u) =>
      stepEvidence(
        step,
        steps,
        of[u] ?? [],
        stems[u] ?? new Set(),
        focus[u] ?? new Set(),
        grits[u] ?? [],
      ),
    ),
  )
  const strongest = utterances.map((_, u) =>
    Math.max(0, ...evidence.map((row) => row[u]?.begins ?? 0)),
  )
  const times = utterances.map(({ at }) => at)
  const lengths = utterances.map(({ first, last }) => last - first)
  const best = utterances.map((_, u) =>
    Math.max(0, ...evidence.map((row) => row[u]?.said ?? 0)),
  )
  const plans = plannedShare(utterances, of)
  const closing = utterances.map((utterance) =>
    closingOf(utterance, utterances),
  )
  const outset = outsetOf(utterances)
  const introduction = best.map((most, u) => {
    const plan = plans[u] ?? 0
    const taken = plan * foretold.planned + (1 - plan) * foretold.other
    // Once the work has begun, talk of nothing is no more an introduction than it is a step.
    const isOver = outset !== -1 && u >= outset
    return most > 0
      ? most * taken
      : isOver
        ? -chatterCost * Math.min(lengths[u] ?? 0, 20)
        : 0
  })
  const saidFor = evidence.map((row) =>
    row.map((one, u) =>
      one.said > 0
        ? one.said
        : -chatterCost * Math.min(lengths[u] ?? 0, 20) +
          Math.max(-0.3, one.said),
    ),
  )
  return {
    times,
    ending: steps.length + 1,
    said: [
      introduction,
      ...saidFor,
      best.map((most, u) => most * 0.6 + (closing[u] ?? 0) * 0.9),
    ],
    begins: [
      [],
      ...steps.map((step, s) =>
        utterances.map(
          (_, u) =>
            beginning(
              utterances,
              u,
              (v) => evidence[s]?.[v]?.begins ?? 0,
              (v) => strongest[v] ?? 0,
            ) -
            (step.again ? coatAgainCost : 0) -
            misplaced((s + 0.7) / (steps.length + 1), times[u] ?? 0, times),
        ),
      ),
      utterances.map((_, u) =>
        (closing[u] ?? 0) >= 1 ? (closing[u] ?? 0) * 1.4 - 1.6 : -Infinity,
      ),
    ],
  }
}

/**
 * The words of places that an utterance is about: those said in it, or else the last ones said shortly before. Who says
 * "and now the bench" tells in the next breath what is done to it.
 */
function placesInFocus(
  utterances: readonly Utterance[],
  stems: readonly ReadonlySet<string>[],
  steps: readonly StepWords[],
): readonly ReadonlySet<string>[] {
  const places = new Set(
    steps.flatMap((step) => [...step.places, ...step.otherPlaces]),
  )
  let focus: ReadonlySet<string> = new Set()
  let since = -Infinity
  return utterances.map(({ at }, u) => {
    const said = [...(stems[u] ?? [])].filter((word) => places.has(word))
    if (said.length > 0) {
      focus = new Set(said)
      since = at
    }
    return at - since <= focusSeconds ? focus : new Set<string>()
  })
}

function mentionsByUtterance(
  utterances: readonly Utterance[],
  mentions: readonly Mention[],
): readonly (readonly Mention[])[] {
  let next = 0
  return utterances.map(({ last }) => {
    const from = next
    while ((mentions[next]?.first ?? Infinity) < last) next += 1
    return mentions.slice(from, next)
  })
}

/** So much more is said for the beginning of another step that it has plainly begun. */
const plainlyAnother = 2
/** What speaks for something beginning with an utterance: what is done in it or soon after, and how it opens. */
function beginning(
  utterances: readonly Utterance[],
  u: number,
  begins: (utterance: number) => number,
  strongest: (utterance: number) => number,
): number {
  const { at = 0, opening = 0 } = utterances[u] ?? {}
  let best = -Infinity
  for (let v = u; v < utterances.length; v += 1) {
    const later = (utterances[v]?.at ?? Infinity) - at
    if (later > (opening >= turn ? longLeadSeconds : leadSeconds)) break
    const found = begins(v)
    if (found >= leastBegun)
      best = Math.max(best, found - later * leadCost - (v > u ? 0.25 : 0))
    // Words that come after another step has plainly begun tell of that one.
    if (strongest(v) - found >= plainlyAnother) break
  }
  if ((utterances[u]?.opening ?? 0) >= turn) best = Math.max(best, unnamed)
  return best === -Infinity
    ? best
    : best + Math.min(1.6, utterances[u]?.opening ?? 0) * 0.8 - enterCost
}

/** What speaks against a step beginning so far from its share of the video. Common practice, no source. */
function misplaced(
  expected: number,
  at: number,
  times: readonly number[],
): number {
  const total = Math.max(1, times.at(-1) ?? 0)
  return placeCost * Math.max(0, Math.abs(at / total - expected) - placeFree)
}
