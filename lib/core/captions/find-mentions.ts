import type { SpokenWord } from '#core/captions/spoken-words'
import { numberAt } from '#core/captions/spoken-numbers'
import { stem } from '#core/captions/stem'
import {
  type KindWeights,
  type TradePhrase,
  tradePhrases,
} from '#core/captions/trade-words'
import type { StepKind } from '#core/journal/vocabulary'

/** Which coat is spoken of: its number, the last one, or one more. */
export type SpokenCoat = number | 'last' | 'again'

/** Words that speak for steps, where they were said. */
export type Mention = {
  /** Index of its first word, and of the first after it. */
  readonly first: number
  readonly last: number
  readonly kinds: KindWeights
  /** How much it sounds like being done there and then: 0 (denied) to 1. */
  readonly doing: number
  readonly coat?: SpokenCoat
  /** So many coats, where they are counted: "two coats of primer". */
  readonly coats?: number
}

/** Everything in the words that speaks for a kind of step. */
export function findMentions(words: readonly SpokenWord[]): readonly Mention[] {
  const texts = words.map((word) => word.text)
  const stems = texts.map(stem)
  const found: { first: number; last: number; phrase?: TradePhrase }[] = []
  for (let index = 0; index < stems.length; index += 1) {
    const phrase = phraseAt(texts, stems, index)
    if (phrase !== undefined) {
      found.push({ first: index, last: index + phrase.words.length, phrase })
      index += phrase.words.length - 1
    } else if (
      /^(?:coat|layer)$/.test(stems[index] ?? '') ||
      (stems[index] === 'application' &&
        /^(?:first|second|third|final|last|another|next)$/.test(
          texts[index - 1] ?? '',
        ))
    ) {
      found.push({ first: index, last: index + 1 })
    }
  }
  const mentionOf = ({
    first,
    last,
    phrase,
  }: (typeof found)[number]): readonly Mention[] => {
    const coatAt = texts
      .slice(first, last)
      .findIndex((text) => /^(?:coat|layer|application)s?$/.test(text))
    const number =
      coatAt === -1 ? {} : numberOfCoat(texts, first + coatAt, first)
    const kinds =
      phrase?.kinds ??
      coatKinds(texts, stems, first) ??
      (number.coat === undefined || number.coat === 1 ? anyCoat : furtherCoat)
    if (Object.keys(kinds).length === 0) return []
    return [
      {
        first,
        last,
        kinds,
        doing: doingOf(words, texts, first, last, phrase?.act ?? false),
        ...number,
      },
    ]
  }
  const again = repeats(words, texts)
  return [...found.flatMap(mentionOf), ...again].toSorted(
    (one, other) => one.first - other.first,
  )
}

/** A coat that is told of without the word: "the second one", "the same again", "round two", "one more on everything". */
const goes =
  '(?:one|time|go|goes|round|pass|application|lick|dose|layer|helping|shot|turn|bash|stab|hit|crack)'
const oneMore: readonly (readonly [RegExp, SpokenCoat | undefined, number])[] =
  [
    [new RegExp(`^(?:the |a |my |its )?second ${goes}\\b`), 2, 0.7],
    [new RegExp(`^(?:the |a |my |its )?third ${goes}\\b`), 3, 0.7],
    [new RegExp(`^(?:the |a |my |its )?first ${goes}\\b`), 1, 0.5],
    [
      new RegExp(`^(?:the |a |my |its )?(?:final|last|finish) ${goes}\\b`),
      'last',
      0.6,
    ],
    [/^(?:round|number|take|pass|part) two\b/, 2, 0.7],
    [
      /^(?:for|had|has|have|got|gets|get|having|needs|wants) (?:the|a|its|her|his|their) second\b/,
      2,
      0.6,
    ],
    [
      /^(?:for|had|has|have|got|gets|get|having|needs|wants) (?:the|a|its|her|his|their) third\b/,
      3,
      0.6,
    ],
    [/^(?:round|number|pass) three\b/, 3, 0.7],
    [
      /^(?:the )?same (?:again|thing again|stuff again|treatment)\b/,
      'again',
      0.8,
    ],
    [
      /^(?:one more time|once more|one more (?:on|of|over|for|all|round|go|pass|layer)|(?:another|a further|one more) (?:of the same|of those|of these)|more of the same)\b/,
      'again',
      0.7,
    ],
    [
      /^(?:the )?same (?:way|deal|story|method|process|drill|routine|brush|roller|thing)\b/,
      undefined,
      0.45,
    ],
    [new RegExp(`^(?:another|the next|a further) ${goes}\\b`), 'again', 0.6],
    [
      /^one more (?!(?:thing|video|question|day|days|week|hour|minute|step|reason|trip|year|night|bit|tip|note|look|piece)s?\b)/,
      'again',
      0.5,
    ],
    [
      /^(?:for|wants|needs|gets|had|has|with|having) another (?:and|when|in|at|that|which)\b/,
      'again',
      0.6,
    ],
    [
      /^(?:repeat|repeated|repeating) (?:that|this|it|the (?:process|same|whole))\b/,
      'again',
      0.7,
    ],
  ]

/** What is done again is a coat where nothing else is said to be: not "wiped it again". */
const doneAgain =
  / (?:do|did|does|doing|get|gets|got|same|put|puts|goes|go|going|went|have|give|gave|then)(?:(?! (?:wip|wash|sand|rins|look|scrub|clean|start|seen|see)\w*) [\w']+)*$/
const ofCoat =
  /^(?:oil|paint|varnish|wax|lacquer|shellac|poly|primer|stain|glaze|clear|colour|color)$/
const onceAgain: (typeof oneMore)[number] = [/^again/, 'again', 0.6]

function repeats(
  words: readonly SpokenWord[],
  texts: readonly string[],
): readonly Mention[] {
  const found: Mention[] = []
  for (let index = 0; index < texts.length; index += 1) {
    const here = texts.slice(index, index + 4).join(' ')
    const hit =
      texts[index] === 'again' &&
      (doneAgain.test(
        ` ${texts.slice(Math.max(0, index - 6), index).join(' ')}`,
      ) ||
        ofCoat.test(texts[index - 1] ?? ''))
        ? onceAgain
        : oneMore.find(([pattern]) => pattern.test(here))
    if (hit === undefined) continue
    const [pattern, coat, weight] = hit
    const length = pattern.exec(here)?.[0].split(' ').length ?? 1
    const kinds = Object.fromEntries(
      coatWork.map((kind) => [kind, weight] as const),
    )
    found.push({
      first: index,
      last: index + length,
      kinds,
      // "I've been over it a second time": what is done again was not there before.
      doing: doingOf(words, texts, index, index + length, false, true),
      ...(coat !== undefined && { coat }),
    })
    index += length - 1
  }
  return found
}

const coatWork: readonly StepKind[] = [
  'coat',
  'prime',
  'seal',
  'stain',
  'wax',
  'glaze',
]

function phraseAt(
  texts: readonly string[],
  stems: readonly string[],
  index: number,
): TradePhrase | undefined {
  return tradePhrases
    .get(stems[index] ?? '')
    ?.find(({ words }) =>
      words.every((word, i) =>
        word.startsWith('=')
          ? word.slice(1) === texts[index + i]
          : word === stems[index + i],
      ),
    )
}

/** A coat of nothing named may be any. */
const anyCoat: KindWeights = {
  coat: 0.8,
  prime: 0.4,
  seal: 0.4,
  stain: 0.35,
  wax: 0.25,
  glaze: 0.2,
  condition: 0.2,
}

/** A further coat of nothing named is of whatever went on before it. */
const furtherCoat: KindWeights = Object.fromEntries(
  coatWork.map((kind) => [kind, 0.7] as const),
)

/** What a coat is of: the thing named after it, "coat of … primer", or before it, "primer coat". */
function coatKinds(
  texts: readonly string[],
  stems: readonly string[],
  at: number,
): KindWeights | undefined {
  const after =
    texts[at + 1] === 'of' || texts[at + 1] === 'on'
      ? [2, 3, 4, 5, 6].map((step) => at + step)
      : []
  for (const place of [...after, at - 1, at - 2]) {
    if (place < 0 || place >= texts.length) continue
    const phrase = phraseAt(texts, stems, place)
    const best = phrase === undefined ? 0 : strongest(phrase.kinds)
    if (phrase !== undefined && best >= 0.7) {
      return Object.fromEntries(
        Object.entries(phrase.kinds).filter(
          ([kind]) => kind in anyCoat || kind === 'hardware',
        ),
      )
    }
  }
  return undefined
}

function strongest(kinds: KindWeights): number {
  return Math.max(0, ...Object.values(kinds))
}

const places: Readonly<Record<string, SpokenCoat>> = {
  first: 1,
  second: 2,
  third: 3,
  fourth: 4,
  fifth: 5,
  final: 'last',
  last: 'last',
  another: 'again',
  next: 'again',
  extra: 'again',
  more: 'again',
}

function numberOfCoat(
  texts: readonly string[],
  at: number,
  first: number,
): Pick<Mention, 'coat' | 'coats'> {
  const word = texts[at] ?? ''
  const after = texts[at + 1] === 'number' ? at + 2 : at + 1
  const behind = /^(?:coat|layer|application)$/.test(word)
    ? numberAt(texts, after)
    : undefined
  if (behind !== undefined && behind.value >= 1 && behind.value <= 9)
    return { coat: behind.value }
  for (const back of [1, 2, 3, 4]) {
    const place = Math.min(at, first) === first ? at - back : first - back
    const before = texts[place] ?? ''
    const ordinal = places[before]
    if (ordinal !== undefined) return { coat: ordinal }
    if (/s$/.test(word)) {
      const count = before === 'couple' ? 2 : numberAt(texts, place)?.value
      if (count !== undefined && count >= 2 && count <= 9)
        return { coats: count }
    }
  }
  return {}
}

// What stands before the words tells whether they are done now. Each pattern ends where they begin.
const upTo = (words: number) => `(?: [\\w']+){0,${words}}$`
/** As {@link upTo}, but not on into what somebody does next: "once it was dry I sanded it". */
const withinClause = (words: number) =>
  `(?: (?!(?:i|we|they|then)\\b)[\\w']+){0,${words}}$`
const denied = new RegExp(
  ` (?:no|not|never|without|don't|didn't|doesn't|won't|wouldn't|isn't|wasn't|aren't|haven't|avoid|avoided|skip|skipped|skipping|instead of|rather than|nothing)${withinClause(3)}`,
)
const leadsUpTo = new RegExp(
  ` (?:before(?! (?:pics?|pictures?|photos?|shots?|and)\\b)|prior to|(?<!\\b(?:i'm|we're|am|are|was|were|i|we|now) )ready for|(?<!\\b(?:i'm|we're|am|are|was|were|i|we|now) )ready to|until|so that|help|helps|in preparation for|prep for|preparing for|prep it for|prepping for|prepped for|gives? the|(?<!\\b(?:in|time|on|back|over) )for the|allow|allows|for better|could start|can start)${upTo(4)}`,
)
const isOver = new RegExp(
  ` (?:after|once|since|now that|when|while|as soon as|having|underneath|under|over|between|from|done|finished|done with|finished with)${upTo(4)}`,
)
const wasSo = new RegExp(
  ` (?:had been|has been|have been|been|was|were|someone|somebody|previous owner|originally|previously|already|original|existing|old|used to be|last time|last video|apparently)${withinClause(2)}`,
)
const supposed = new RegExp(
  ` (?:if you|if you're|you can|you could|you should|you'll|you need|you want|you don't|some people|people|would|might|could|wish|recommend|always)${upTo(5)}`,
)
const isLater =
  /\b(?:(?<!(?:minute|hour|day|night|morning|evening|week|month|coat)s? )later|eventually|in another video|next video|at the end|last video|last time|in the end|coming up|stay tuned)\b/
const getsDone = new RegExp(
  ` (?:i'm|we're|i am|we are|this is|here's|here is|here comes|here come|these are|that's the|that is the|time for|started|starting|start|begin|began|beginning|going to|gonna|let's|time to|time for|need to|needed to|had to|have to|want to|i|we|then|now|next|just|by|it's|on to|onto|apply|applying|applied|put|putting|add|adding|added|use|used|using|give|gave|giving|mix|mixed|mixing|grab|grabbed|went|go|going|brush|brushed|brushing|roll|rolled|rolling|spray|sprayed|spraying|wipe|wiped|wiping|wiped|did|doing|do|get|got|getting|lay|laid|took|taking|take|pulled|pulling|pour|poured|spread|first|second|third|another)${upTo(4)}`,
)
const dries =
  /^(?: [\w']+){0,2} (?:is|was|has|had|to|dries|it's|all|were|are|fully|completely)?(?: [\w']+){0,2} ?(?:dry|dried|dries|drying|cured|cure|curing|done|finished|(?:gone|goes|going|went) off|set|sets)\b/

function doingOf(
  words: readonly SpokenWord[],
  texts: readonly string[],
  first: number,
  last: number,
  act: boolean,
  again = false,
): number {
  const before = contextBefore(words, texts, first)
  const after = contextAfter(words, texts, last)
  const text = texts[first] ?? ''
  if (denied.test(before)) return 0
  const over = isOver.test(before)
  if (over && (/ing$/.test(text) || dries.test(after))) return 0.1
  if (dries.test(after) && !act) return 0.15
  if (leadsUpTo.test(before)) return 0.2
  if (!again && wasSo.test(before) && !/ing$/.test(text)) return 0.2
  if (supposed.test(before)) return 0.35
  const done = getsDone.test(before)
    ? act
      ? 1
      : 0.85
    : act && /(?:ing|ed)$/.test(text)
      ? 0.8
      : isAlone(words, first, last)
        ? 0.9
        : 0.5
  return isLater.test(`${before} ${text}${after}`) ? done * 0.35 : done
}

const reach = 9
/** What stands before such a word says nothing of what stands after it. */
const turnsAway =
  /^(?:step|next|then|okay|ok|alright|finally|so|now|but|because)$/

function contextBefore(
  words: readonly SpokenWord[],
  texts: readonly string[],
  first: number,
): string {
  let from = first
  while (
    from > 0 &&
    from > first - reach &&
    words[from]?.opens !== true &&
    !turnsAway.test(texts[from] ?? '')
  ) {
    from -= 1
  }
  return ['', ...texts.slice(from, first)].join(' ')
}

function contextAfter(
  words: readonly SpokenWord[],
  texts: readonly string[],
  last: number,
): string {
  let to = last
  while (to < texts.length && to < last + reach && words[to]?.opens !== true) {
    to += 1
  }
  return ['', ...texts.slice(last, to)].join(' ')
}

/** Said by itself, as a title is: hardly another word around it. */
function isAlone(
  words: readonly SpokenWord[],
  first: number,
  last: number,
): boolean {
  const gap = (one: number, other: number) => {
    const [before, after] = [words[one], words[other]]
    if (before === undefined || after === undefined) return true
    return after.opens || after.at - before.end > 1
  }
  let from = first
  while (from > first - 4 && !gap(from - 1, from)) from -= 1
  let to = last
  while (to < last + 4 && !gap(to - 1, to)) to += 1
  return to - from <= 4 && gap(from - 1, from) && gap(to - 1, to)
}

/** The kind that a mention speaks for most. */
export function mainKind({ kinds }: Mention): StepKind | undefined {
  const best = strongest(kinds)
  return keysOf(kinds).find((kind) => kinds[kind] === best)
}

function keysOf(kinds: KindWeights): readonly StepKind[] {
  return Object.keys(kinds) as StepKind[]
}
