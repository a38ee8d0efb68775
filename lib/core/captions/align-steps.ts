import {
  type Mention,
  findMentions,
  mainKind,
} from '#core/captions/find-mentions'
import type { SpokenWord } from '#core/captions/spoken-words'
import { stem } from '#core/captions/stem'
import {
  type StepWords,
  spokenGrits,
  stepWords,
} from '#core/captions/step-words'
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

/** The shortest chapter, in seconds. Common practice, no source. */
export const shortestChapter = 10

// Weights of the alignment, in units of a step's own name said while it is done. Common practice, no source: set by
// hand on transcripts of our own.
const cost = {
  /** Of beginning a step at all: less than this is no beginning. */
  enter: 2.1,
  /** Of each step that is passed over. */
  skip: 0.35,
  /** Of each word within a step that does not speak of it. */
  chatter: 0.012,
  /** Of beginning a step that only its place tells from the one before. */
  again: 2.5,
  /** Of beginning what is not in its turn. */
  outOfTurn: 2.4,
} as const
const bonus = {
  coat: 1.5,
  coatAgain: 0.8,
  grit: 1.2,
  place: 0.5,
  product: 0.7,
} as const
/** How much an utterance can say for a step at most. */
const mostSaid = 2.2
/** A beginning may stand so long before the words that tell of it. */
const leadSeconds = 9
/** A place that was named is still meant for so long. */
const focusSeconds = 12
/** Scores over this are log odds: found on transcripts of our own. */
const temperature = 0.8
/** The share of what is told of steps ahead of time that the introduction takes up, where it sounds so and where not. */
const foretold = { planned: 0.95, other: 0.3 } as const

/**
 * Where each step of a journal begins in what is said: the best way to lay the steps in their order along the words, where
 * a step may be left out, spoken of again or announced before. A step that is clearly spoken of out of its turn is
 * put in afterwards.
 *
 * @param steps in the order they were done
 * @returns beginnings at least ten seconds apart
 */
export function alignSteps(
  words: readonly SpokenWord[],
  steps: readonly Step[],
  journal: Pick<Journal, 'pieces' | 'products'>,
): Alignment {
  const utterances = utterancesOf(words)
  if (utterances.length === 0 || steps.length === 0) return { starts: [] }
  const told = hear(words, utterances, stepWords(steps, journal))
  const path = bestPath(told)
  const chances = startChances(told)
  const placed = path.starts.map(({ state, utterance }) => ({
    state,
    at: told.times[utterance] ?? 0,
    confidence: chanceNear(chances[state], told.times, utterance),
  }))
  const steady = placed.filter(({ state }) => state < told.ending)
  const ending = placed.find(({ state }) => state === told.ending)
  const others = outOfTurn(told, path.states, placed)
  const starts = [...steady, ...others]
    .map(({ state, at, confidence }) => ({
      step: steps[state - 1],
      at,
      confidence,
    }))
    .filter((one): one is StepStart => one.step !== undefined)
    .sort((one, other) => one.at - other.at)
  return {
    starts,
    ...(ending !== undefined && {
      ending: { at: ending.at, confidence: ending.confidence },
    }),
  }
}

/**
 * What each utterance says for each state. States are numbered from 0, the introduction, over the steps from 1 in their
 * order, to the ending.
 */
type Heard = {
  /** When each utterance begins, in seconds. */
  readonly times: readonly number[]
  readonly ending: number
  /** `said[state][utterance]`: what speaks for being in the state. */
  readonly said: readonly (readonly number[])[]
  /** `begins[state][utterance]`: what speaks for the state beginning with it; -Infinity where nothing does. */
  readonly begins: readonly (readonly number[])[]
  /** How much each utterance sounds like telling of what is to come: 0 to 1. */
  readonly plans: readonly number[]
}

function hear(
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
      judge(
        step,
        steps,
        of[u] ?? [],
        stems[u] ?? new Set(),
        focus[u] ?? new Set(),
        grits[u] ?? [],
      ),
    ),
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
  const introduction = best.map(
    (most, u) =>
      most *
      ((plans[u] ?? 0) * foretold.planned +
        (1 - (plans[u] ?? 0)) * foretold.other),
  )
  const saidFor = evidence.map((row) =>
    row.map((one, u) =>
      one.said > 0
        ? one.said
        : -cost.chatter * Math.min(lengths[u] ?? 0, 20) +
          Math.max(-0.3, one.said),
    ),
  )
  return {
    times,
    plans,
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
            beginning(utterances, u, (v) => evidence[s]?.[v]?.begins ?? 0) -
            (step.again ? cost.again : 0),
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

/** What one utterance says for being in a step, and for its beginning. */
type Evidence = { readonly said: number; readonly begins: number }

function judge(
  step: StepWords,
  steps: readonly StepWords[],
  mentions: readonly Mention[],
  stems: ReadonlySet<string>,
  focus: ReadonlySet<string>,
  grits: readonly number[],
): Evidence {
  const { kind } = step.step
  const isAbrasion = kind === 'sand' || kind === 'scuff'
  // A grit is a word of sanding by itself: "then one eighty".
  let said = isAbrasion && grits.length > 0 ? 0.5 : 0
  let begins = said * 1.7
  let coat = 0
  for (const mention of mentions) {
    const weight = mention.kinds[kind] ?? 0
    if (weight === 0) continue
    const { doing } = mention
    said += weight * (doing >= 0.5 ? 0.5 + doing / 2 : doing * doing)
    // Less is said for a beginning by a second mention in the same breath.
    begins = Math.max(begins, weight * doing * 1.7) + weight * doing * 0.25
    coat += weight > 0.3 && doing > 0.3 ? coatAgreement(step, mention) : 0
  }
  const product = Math.min(
    1,
    [...step.product].reduce(
      (sum, [word, rarity]) => sum + (stems.has(word) ? rarity : 0),
      0,
    ),
  )
  if (begins < 0.3) {
    return { said: Math.min(said, mostSaid) + product * 0.4, begins: 0 }
  }
  const own = [...step.places].some((word) => focus.has(word))
  const foreign = [...step.otherPlaces].some((word) => focus.has(word))
  const place = own ? 1 : foreign ? -1 : 0
  const grit = !isAbrasion
    ? 0
    : grits.some((one) => step.grits.includes(one))
      ? 1
      : grits.some((one) => steps.some((other) => other.grits.includes(one)))
        ? -0.7
        : 0
  const extra =
    Math.max(-1.2, Math.min(1.2, coat)) * bonus.coat +
    place * bonus.place +
    grit * bonus.grit +
    product * bonus.product
  return {
    said: Math.max(
      -0.5,
      Math.min(said, mostSaid) + extra * (extra < 0 ? 0.6 : 0.45),
    ),
    begins:
      Math.min(begins, 2.6) +
      extra +
      (step.again && own ? cost.again + 0.4 : 0),
  }
}

/** Whether the coat that is spoken of is this one: 1, another: -1, or either: 0. */
function coatAgreement(step: StepWords, { coat }: Mention): number {
  if (coat === undefined || step.coat === undefined) return 0
  const again = bonus.coatAgain / bonus.coat
  if (coat === 'again') return step.coat > 1 ? again : -again
  if (coat === 'last')
    return step.lastCoat ? 1 : step.coats.length > 1 ? -0.6 : 0
  if (coat === step.coat) return 1
  return step.coats.includes(coat) ? -1 : -0.2
}

/** What speaks for something beginning with an utterance: what is done in it or soon after, and how it opens. */
function beginning(
  utterances: readonly Utterance[],
  u: number,
  begins: (utterance: number) => number,
): number {
  const at = utterances[u]?.at ?? 0
  let best = -Infinity
  for (let v = u; v < utterances.length; v += 1) {
    const later = (utterances[v]?.at ?? Infinity) - at
    if (later > leadSeconds) break
    const found = begins(v)
    if (found >= 0.5)
      best = Math.max(best, found - later * 0.07 - (v > u ? 0.25 : 0))
  }
  return best === -Infinity
    ? best
    : best + Math.min(1.6, utterances[u]?.opening ?? 0) * 0.8 - cost.enter
}

const plan =
  /\b(?:in (?:this|today's) (?:video|one|episode|tutorial)|in today's|today (?:i'm|i am|we're|we are|i'll|i will|we'll)|i'm going to show|show you|welcome|stay tuned|by the end|we'll be|we will be|i'll be|i will be|i'm gonna be|going to be|the plan|my plan|planning|plan is|i want to|i wanted to|i'd like|i knew|i decided|i've decided|idea|ideas|makeover|make over|transform|transformation|found this|picked this|picked it up|bought|thrift|thrifted|marketplace|charity shop|car boot|auction|flea market|hello|hi (?:everyone|guys|everybody|there)|hey (?:everyone|guys|everybody|there|friends)|what's up|good morning|coming up|stick around|will be|we'll|i'll|i will|keep watching)\b/
const setOut =
  /\b(?:let's get (?:started|into it|going|to it|stuck in)|let's start|let's dive|let's begin|let's crack on|to get started|first things first|the first thing|first step|step one|step number one|first up|first off|to begin|i started (?:by|off|with)|start (?:by|off|with))\b/

/**
 * How much each utterance sounds like telling of what is to come, 0 to 1: words of plans around it, several kinds of
 * work in a few breaths, and nobody having set out yet.
 */
function plannedShare(
  utterances: readonly Utterance[],
  of: readonly (readonly Mention[])[],
): readonly number[] {
  const total = utterances.at(-1)?.end ?? 0
  const earliest = Math.max(60, Math.min(240, total * 0.3))
  const outset = utterances.findIndex(({ text }) => setOut.test(text))
  return utterances.map(({ at, text }, u) => {
    const around = utterances.slice(Math.max(0, u - 2), u + 2)
    const isPlan = around.some((one) => plan.test(one.text))
    const kinds = new Set(
      utterances
        .map((one, v) => ({ one, v }))
        .filter(({ one }) => Math.abs(one.at - at) <= 9)
        .flatMap(({ v }) =>
          (of[v] ?? []).flatMap((one) => mainKind(one) ?? []),
        ),
    )
    const early = at <= earliest ? 1 : at <= earliest * 2 ? 0.4 : 0
    const begun =
      outset !== -1 && u >= outset && utterances[outset]?.at !== undefined
        ? 0.35
        : 1
    const own = plan.test(text) ? 0.45 : isPlan ? 0.3 : 0
    return Math.min(
      1,
      early * begun * (0.25 + own + (kinds.size >= 3 ? 0.5 : 0)),
    )
  })
}

const closings: readonly (readonly [RegExp, number])[] = [
  [
    /\b(?:thanks? (?:so much |you so much |you )?for watching|see you (?:in the |on the )?next|see you (?:soon|then)|until next time|bye)\b/,
    1.6,
  ],
  [
    /\b(?:there (?:you|we) (?:have it|go|are)|that's (?:it for|a wrap|how i|how you|all for)|here (?:it is|she is|he is|they are|is the (?:finished|final))|(?:the |a )?(?:finished|final) (?:piece|product|result|look|reveal|thing)|big reveal|the reveal)\b/,
    1.4,
  ],
  [
    /\b(?:(?:let me know|subscribe|thumbs up|comment(?:s)? (?:below|down)|like and)|turned out|came out|before and after|and that's it|so that's it|all (?:done|finished)|it's (?:all )?(?:done|finished|complete)|is (?:now )?(?:complete|finished)|(?:so|really|very) (?:happy|pleased|chuffed|proud)|i (?:absolutely |really |just )?love (?:how|it|this|the way))\b/,
    1,
  ],
]

/** How much an utterance sounds like the end of it all: 0 to 1.6; nothing in the first part of a video does. */
function closingOf(
  { at, text }: Utterance,
  utterances: readonly Utterance[],
): number {
  const total = utterances.at(-1)?.end ?? 0
  if (at < total * 0.6) return 0
  return closings.find(([pattern]) => pattern.test(text))?.[1] ?? 0
}

type Path = {
  readonly starts: readonly {
    readonly state: number
    readonly utterance: number
  }[]
  /** The state of each utterance. */
  readonly states: readonly number[]
}

/** `sums[state][n]`: what the first n utterances say for the state. */
function sumsOf({ said }: Heard): readonly (readonly number[])[] {
  return said.map((row) => {
    let sum = 0
    return [0, ...row.map((one) => (sum += one))]
  })
}

/** For each utterance, how many before it begin long enough before to end a chapter there. */
function roomBefore(times: readonly number[]): readonly number[] {
  let count = 0
  return times.map((at) => {
    while ((times[count] ?? Infinity) <= at - shortestChapter) count += 1
    return count
  })
}

/** The best path through the states, forward only, each entered at most once and kept for a chapter's length. */
function bestPath(heard: Heard): Path {
  const { times, ending, begins } = heard
  const sums = sumsOf(heard)
  const room = roomBefore(times)
  const score = begins.map(() => times.map(() => -Infinity))
  const from: ({ state: number; utterance: number } | undefined)[][] =
    begins.map(() => times.map(() => undefined))
  // The best start of each state so far, by what it had over its own sum.
  const lead = begins.map(() => ({ value: -Infinity, utterance: -1 }))
  lead[0] = { value: 0, utterance: 0 }
  let counted = 0
  for (let u = 0; u < times.length; u += 1) {
    while (counted < (room[u] ?? 0)) {
      for (let s = 1; s <= ending; s += 1) {
        const value =
          (score[s]?.[counted] ?? -Infinity) - (sums[s]?.[counted] ?? 0)
        if (value > (lead[s]?.value ?? -Infinity))
          lead[s] = { value, utterance: counted }
      }
      counted += 1
    }
    for (let s = 1; s <= ending; s += 1) {
      const own = begins[s]?.[u] ?? -Infinity
      if (own === -Infinity) continue
      let best = -Infinity
      for (let k = 0; k < s; k += 1) {
        const value =
          (lead[k]?.value ?? -Infinity) + (sums[k]?.[u] ?? 0) - skipped(k, s)
        if (value > best) {
          best = value
          const row = from[s]
          if (row !== undefined)
            row[u] = { state: k, utterance: lead[k]?.utterance ?? 0 }
        }
      }
      const row = score[s]
      if (row !== undefined) row[u] = best + own
    }
  }
  let end = { state: 0, utterance: 0, value: sums[0]?.[times.length] ?? 0 }
  for (let s = 1; s <= ending; s += 1) {
    for (let u = 0; u < times.length; u += 1) {
      const value =
        (score[s]?.[u] ?? -Infinity) +
        (sums[s]?.[times.length] ?? 0) -
        (sums[s]?.[u] ?? 0) -
        skipped(s, ending)
      if (value > end.value) end = { state: s, utterance: u, value }
    }
  }
  const starts: { state: number; utterance: number }[] = []
  const states = times.map(() => 0)
  let until = times.length
  let here: { state: number; utterance: number } | undefined = end
  while (here !== undefined && here.state > 0) {
    starts.unshift({ state: here.state, utterance: here.utterance })
    states.fill(here.state, here.utterance, until)
    until = here.utterance
    here = from[here.state]?.[here.utterance]
  }
  return { starts, states }
}

/** What it costs to go from one state to another: the steps between them are left out. */
function skipped(from: number, to: number): number {
  return Math.max(0, to - from - 1) * cost.skip
}

/** `chances[state][utterance]`: how likely the state begins there, over all paths, each weighed by its score. */
function startChances(heard: Heard): readonly (readonly number[])[] {
  const { times, ending, begins } = heard
  const cool = (value: number) => value / temperature
  const sums = sumsOf(heard).map((row) => row.map(cool))
  const room = roomBefore(times)
  const count = times.length
  const forward = begins.map(() => times.map(() => -Infinity))
  const lead = begins.map(() => -Infinity)
  lead[0] = 0
  let counted = 0
  for (let u = 0; u < count; u += 1) {
    while (counted < (room[u] ?? 0)) {
      for (let s = 1; s <= ending; s += 1) {
        lead[s] = logSum(
          lead[s] ?? -Infinity,
          (forward[s]?.[counted] ?? -Infinity) - (sums[s]?.[counted] ?? 0),
        )
      }
      counted += 1
    }
    for (let s = 1; s <= ending; s += 1) {
      const own = begins[s]?.[u] ?? -Infinity
      const row = forward[s]
      if (own === -Infinity || row === undefined) continue
      let total = -Infinity
      for (let k = 0; k < s; k += 1) {
        total = logSum(
          total,
          (lead[k] ?? -Infinity) + (sums[k]?.[u] ?? 0) - cool(skipped(k, s)),
        )
      }
      row[u] = total + cool(own)
    }
  }
  const backward = begins.map(() => times.map(() => -Infinity))
  // What can follow a state from some utterance on, over the sum of the state up to there.
  const ahead = begins.map(
    (_, s) => (sums[s]?.[count] ?? 0) - cool(skipped(s, ending)),
  )
  let w = count - 1
  for (let u = count - 1; u >= 0; u -= 1) {
    while (w >= 0 && (times[w] ?? 0) >= (times[u] ?? 0) + shortestChapter) {
      for (let s = 1; s < ending; s += 1) {
        let total = -Infinity
        for (let next = s + 1; next <= ending; next += 1) {
          const own = begins[next]?.[w] ?? -Infinity
          if (own === -Infinity) continue
          total = logSum(
            total,
            cool(own - skipped(s, next)) + (backward[next]?.[w] ?? -Infinity),
          )
        }
        ahead[s] = logSum(ahead[s] ?? -Infinity, total + (sums[s]?.[w] ?? 0))
      }
      w -= 1
    }
    for (let s = 1; s <= ending; s += 1) {
      const row = backward[s]
      if (row !== undefined)
        row[u] = (ahead[s] ?? -Infinity) - (sums[s]?.[u] ?? 0)
    }
  }
  const whole = pathTotal(heard, forward, sums, cool)
  return forward.map((row, s) =>
    row.map((one, u) =>
      Math.exp(Math.min(0, one + (backward[s]?.[u] ?? -Infinity) - whole)),
    ),
  )
}

/** The logarithm of the weights of all paths. */
function pathTotal(
  { times, ending }: Heard,
  forward: readonly (readonly number[])[],
  sums: readonly (readonly number[])[],
  cool: (value: number) => number,
): number {
  const count = times.length
  let total = (sums[0]?.[count] ?? 0) - cool(skipped(0, ending))
  for (let s = 1; s <= ending; s += 1) {
    for (let u = 0; u < count; u += 1) {
      total = logSum(
        total,
        (forward[s]?.[u] ?? -Infinity) +
          (sums[s]?.[count] ?? 0) -
          (sums[s]?.[u] ?? 0) -
          cool(skipped(s, ending)),
      )
    }
  }
  return total
}

function logSum(one: number, other: number): number {
  const most = Math.max(one, other)
  return most === -Infinity
    ? most
    : most + Math.log(Math.exp(one - most) + Math.exp(other - most))
}

function chanceNear(
  chances: readonly number[] | undefined,
  times: readonly number[],
  utterance: number,
): number {
  const at = times[utterance] ?? 0
  const near = (chances ?? []).reduce(
    (sum, one, u) =>
      sum +
      (Math.abs((times[u] ?? Infinity) - at) <= shortestChapter ? one : 0),
    0,
  )
  return Math.min(1, near)
}

/** Steps that found no place in their turn but are clearly begun elsewhere: while another is told of that says less of it. */
function outOfTurn(
  { times, ending, said, begins, plans }: Heard,
  states: readonly number[],
  placed: readonly { readonly state: number; readonly at: number }[],
): readonly { state: number; at: number; confidence: number }[] {
  const found: { state: number; at: number; confidence: number }[] = []
  const free = Array.from({ length: ending - 1 }, (_, i) => i + 1).filter(
    (state) => !placed.some((one) => one.state === state),
  )
  const candidates = free.flatMap((state) =>
    times.map((at, u) => {
      const here = states[u] ?? 0
      const gain = (v: number) =>
        Math.max(
          0,
          (said[state]?.[v] ?? 0) - Math.max(0, said[states[v] ?? 0]?.[v] ?? 0),
        )
      let score =
        (begins[state]?.[u] ?? -Infinity) + cost.enter - cost.outOfTurn
      if (here === ending) score -= 1
      if (here === 0) score -= (plans[u] ?? 0) * 3
      if (gain(u) <= 0 && gain(u + 1) <= 0) score -= 1.5
      for (let v = u; v < times.length && (times[v] ?? 0) < at + 30; v += 1) {
        score += gain(v) * 0.5
      }
      return { state, at, score }
    }),
  )
  candidates.sort((one, other) => other.score - one.score)
  for (const { state, at, score } of candidates) {
    if (score <= 0.6) break
    if (found.some((one) => one.state === state)) continue
    const isClear = [...placed, ...found].every(
      (one) => Math.abs(one.at - at) >= shortestChapter,
    )
    if (isClear && at >= shortestChapter) {
      found.push({ state, at, confidence: 0.75 * (1 - Math.exp(-score / 1.5)) })
    }
  }
  return found
}
