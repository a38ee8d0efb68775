import type { StepStart } from '#core/captions/align-steps'
import { findMentions } from '#core/captions/find-mentions'
import { mendMisheard } from '#core/captions/mend-misheard'
import { numberAt } from '#core/captions/spoken-numbers'
import type { SpokenWord } from '#core/captions/spoken-words'
import { spokenGrits } from '#core/captions/step-words'
import type { KindWeights } from '#core/captions/trade-words'
import type { Journal, Step } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'

/** What a step may lack that was said: the grit, the dilution in percent, how long it was left in minutes, how many coats. */
export const spokenFacts = ['grit', 'dilution', 'dwell', 'coats'] as const
export type SpokenFact = (typeof spokenFacts)[number]

/** A fact that the journal lacks and the captions tell, to be asked about: nothing is written down by itself. */
export type CaptionQuestion = {
  readonly fact: SpokenFact
  readonly stepId: string
  readonly question: string
  /** What was said, each once, in the order said: P grades, parts to 100 parts, minutes or coats. */
  readonly values: readonly number[]
  /** The words that say it. */
  readonly words: string
  /** When they are said, from the start of the video. */
  readonly seconds: number
}

type Found = {
  readonly fact: SpokenFact
  readonly value: number
  /** Index of the word that it was found at. */
  readonly index: number
  /** The kinds of step that counted coats may be of. */
  readonly kinds?: KindWeights
}

/**
 * The facts that steps lack and the captions tell: as questions, in order of time.
 *
 * @param starts where the steps begin; a fact belongs to the step that is told of when it is said
 */
export function askFromCaptions(
  heard: readonly SpokenWord[],
  starts: readonly StepStart[],
  { steps }: Pick<Journal, 'steps'>,
  language: Language = english,
): readonly CaptionQuestion[] {
  const words = mendMisheard(heard)
  const found = [
    ...spokenGrits(words, 0, words.length).map(({ grit, index }) => ({
      fact: 'grit' as const,
      value: grit,
      index,
    })),
    ...dilutions(words),
    ...dwells(words),
    ...countedCoats(words),
  ].filter(({ index }) => !isDenied(words, index))
  const questions = new Map<string, { step: Step; all: Found[] }>()
  for (const one of found) {
    const step = stepFor(one, words[one.index]?.at ?? 0, starts, steps)
    if (step === undefined) continue
    const key = `${one.fact} ${step.id}`
    const kept = questions.get(key) ?? { step, all: [] }
    kept.all.push(one)
    questions.set(key, kept)
  }
  return [...questions.values()]
    .flatMap(({ step, all }) => {
      const [first] = all
      if (first === undefined) return []
      const at = words[first.index]?.at ?? 0
      const values = [...new Set(all.map(({ value }) => value))]
      return [
        {
          fact: first.fact,
          stepId: step.id,
          question: language.chapters.ask({
            fact: first.fact,
            kind: step.kind,
            values,
            known: knownCoats(step, steps),
          }),
          values,
          words: around(words, first.index),
          seconds: Math.floor(at),
        },
      ]
    })
    .toSorted((one, other) => one.seconds - other.seconds)
}

const takes: Readonly<Record<SpokenFact, readonly StepKind[]>> = {
  grit: ['sand', 'scuff'],
  dilution: ['condition', 'prime', 'coat', 'stain', 'glaze', 'seal'],
  dwell: ['strip', 'condition', 'stain', 'clean'],
  coats: ['condition', 'prime', 'coat', 'stain', 'glaze', 'seal', 'wax'],
}

/** The step that a fact was said of, when it lacks it. */
function stepFor(
  { fact, value, kinds }: Found,
  at: number,
  starts: readonly StepStart[],
  steps: readonly Step[],
): Step | undefined {
  const told = starts.findLast((one) => one.at <= at + 3)?.step
  if (told === undefined) return undefined
  // Coats are often counted ahead or afterwards: then what they are of tells which.
  const step =
    kinds === undefined || (kinds[told.kind] ?? 0) > 0
      ? told
      : starts
          .filter((one) => (kinds[one.step.kind] ?? 0) > 0)
          .toSorted((a, b) => Math.abs(a.at - at) - Math.abs(b.at - at))[0]
          ?.step
  if (step === undefined || !takes[fact].includes(step.kind)) return undefined
  const lacks = {
    grit: step.grit === undefined,
    dilution: step.thinningPercent === undefined,
    dwell: !/\d\s*(?:min|h\b|hour)/i.test(step.note ?? ''),
    coats: value > knownCoats(step, steps),
  }[fact]
  return lacks ? step : undefined
}

/** How many coats of a step's kind its surfaces have in the journal. */
function knownCoats({ kind, surfaces }: Step, steps: readonly Step[]): number {
  const same = steps.filter(
    (one) =>
      one.kind === kind &&
      one.surfaces.some((on) =>
        surfaces.some(({ surfaceId }) => surfaceId === on.surfaceId),
      ),
  )
  return Math.max(
    1,
    ...same.flatMap((one) => one.surfaces.map((on) => on.coat ?? 1)),
  )
}

const thinning =
  /\b(?:thin|thinned|thinning|dilute|diluted|diluting|water|watered|cut|reduce|reduced|solvent|thinner|spirits?|spirit|extender|conditioner|alcohol)\b/
const diluent =
  /^(?:water|thinner|thinners|solvent|spirits?|white|mineral|alcohol|turpentine|turps)$/

function dilutions(words: readonly SpokenWord[]): readonly Found[] {
  const texts = words.map((word) => word.text)
  const near = (index: number) =>
    texts.slice(Math.max(0, index - 8), index + 8).join(' ')
  return texts.flatMap((_, index): readonly Found[] => {
    const first = numberAt(texts, index)
    if (first === undefined) return []
    // "seventy" is no number of its own in "one seventy", nor "two" in "twenty two".
    if (index > 0 && (numberAt(texts, index - 1)?.words ?? 0) > 1) return []
    const next = index + first.words
    if (texts[next] === 'percent' && thinning.test(near(index))) {
      return first.value > 0 && first.value <= 100
        ? [{ fact: 'dilution', value: first.value, index }]
        : []
    }
    const second = numberAt(texts, next)
    if (
      first.value === 50 &&
      second?.value === 50 &&
      thinning.test(near(index))
    ) {
      return [{ fact: 'dilution', value: 100, index }]
    }
    // "four parts paint to one part water"
    if (!/^parts?$/.test(texts[next] ?? '')) return []
    const to = [1, 2, 3, 4, 5]
      .map((step) => next + step)
      .find((place) => texts[place] === 'to' || texts[place] === 'and')
    if (to === undefined) return []
    const part = numberAt(texts, to + 1)
    if (part === undefined || first.value === 0) return []
    const of = texts.slice(to + 1 + part.words, to + 4 + part.words)
    const ratio = Math.round((part.value / first.value) * 1000) / 10
    return of.some((word) => diluent.test(word)) && ratio <= 100
      ? [{ fact: 'dilution', value: ratio, index }]
      : []
  })
}

const leaves =
  /\b(?:leave|leaves|leaving|left|let|lets|letting|sit|sits|sat|wait|waited|waiting|dwell|soak|soaked|work|give|gave|after|for)\b/

function dwells(words: readonly SpokenWord[]): readonly Found[] {
  const texts = words.map((word) => word.text)
  return texts.flatMap((text, index): readonly Found[] => {
    const minutes = minutesAt(texts, index)
    if (minutes === undefined) return []
    const before = texts.slice(Math.max(0, index - 9), index).join(' ')
    const after = texts.slice(index, index + 8).join(' ')
    const isDrying = /\b(?:dry|dries|dried|drying|cure|cured)\b/.test(
      `${before} ${after}`,
    )
    const isInner =
      index > 0 &&
      (minutesAt(texts, index - 1) !== undefined ||
        (numberAt(texts, index - 1)?.words ?? 0) > 1 ||
        text === 'hour')
    return leaves.test(before) && !isDrying && !isInner
      ? [{ fact: 'dwell', value: minutes, index }]
      : []
  })
}

/** A length of time that begins at a word, in minutes: `thirty minutes`, `half an hour`, `two hours`. */
function minutesAt(
  texts: readonly string[],
  index: number,
): number | undefined {
  const text = texts.slice(index, index + 3).join(' ')
  if (/^half an hour|^half hour/.test(text)) return 30
  if (/^an hour|^one hour/.test(text))
    return /^(?:an|one) hour and a half/.test(
      texts.slice(index, index + 5).join(' '),
    )
      ? 90
      : 60
  const number = numberAt(texts, index)
  if (number === undefined) return undefined
  const unit = texts[index + number.words] ?? ''
  if (/^min(?:ute)?s?$/.test(unit)) return number.value
  return /^(?:hours?|hrs?)$/.test(unit) ? number.value * 60 : undefined
}

function countedCoats(words: readonly SpokenWord[]): readonly Found[] {
  return findMentions(words).flatMap(
    ({ coats, doing, first, kinds }): readonly Found[] =>
      coats === undefined || doing < 0.3
        ? []
        : [{ fact: 'coats', value: coats, index: first, kinds }],
  )
}

function isDenied(words: readonly SpokenWord[], index: number): boolean {
  const before = words.slice(Math.max(0, index - 5), index)
  const from = before.findLastIndex((word) => word.opens)
  return /\b(?:not|never|don't|didn't|wouldn't|without|instead of|rather than|finer than|coarser than|if you)\b/.test(
    before
      .slice(Math.max(0, from))
      .map((word) => word.text)
      .join(' '),
  )
}

/** A few words on either side, as they were said. */
function around(words: readonly SpokenWord[], index: number): string {
  const reach = 9
  return words
    .slice(Math.max(0, index - reach), index + reach)
    .map((word) => word.text)
    .join(' ')
}
