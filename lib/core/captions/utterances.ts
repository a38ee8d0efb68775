import type { SpokenWord } from '#core/captions/spoken-words'

/** A few words said in one go: a sentence, or what comes nearest to it. */
export type Utterance = {
  /** Its words, from one index to another; the second is not in it. */
  readonly first: number
  readonly last: number
  /** Seconds from the start of the video. */
  readonly at: number
  readonly end: number
  readonly text: string
  /** How much its beginning sounds like the beginning of something new: about 0 to 2. */
  readonly opening: number
}

/** Without sentence marks nothing is as long as this, nor takes as many seconds. Common practice, no source. */
const longestWords = 18
const longestSeconds = 5
const pauseSeconds = 0.9
/** A sentence mark at least every so many words: then the captions are punctuated. Common practice, no source. */
const wordsPerMark = 45

/**
 * Words as utterances: cut at sentence marks where there are any, else at pauses and before words that one goes on with.
 */
export function utterancesOf(
  words: readonly SpokenWord[],
): readonly Utterance[] {
  const marks = words.filter((word) => word.opens).length
  const punctuated = marks * wordsPerMark > words.length
  const result: Utterance[] = []
  let first = 0
  for (let next = 1; next <= words.length; next += 1) {
    if (next < words.length && !isCut(words, first, next, punctuated)) continue
    const inside = words.slice(first, next)
    const [start] = inside
    if (start === undefined) break
    const text = inside.map((word) => word.text).join(' ')
    const pause = start.at - (words[first - 1]?.end ?? start.at)
    result.push({
      first,
      last: next,
      at: start.at,
      end: inside.at(-1)?.end ?? start.end,
      text,
      opening: openingOf(text, pause, start.opens),
    })
    first = next
  }
  return result
}

function isCut(
  words: readonly SpokenWord[],
  first: number,
  next: number,
  punctuated: boolean,
): boolean {
  const word = words[next]
  const before = words[next - 1]
  if (word === undefined || before === undefined || word.opens) return true
  const length = next - first
  if (length >= longestWords) return true
  if (!punctuated && word.at - (words[first]?.at ?? 0) >= longestSeconds)
    return true
  if (word.at - before.end > pauseSeconds) return true
  if (punctuated) return false
  const following = words
    .slice(next, next + 6)
    .map((one) => one.text)
    .join(' ')
  if (length >= 4 && goesOn.test(following)) return true
  if (turns.test(following)) return !holdsOn.test(before.text)
  if (length >= 4 && dayOf.test(following)) return !holdsOn.test(before.text)
  return length >= 7 && clause.test(following) && !holdsOn.test(before.text)
}

/** How a clause begins in speech, and words after which none does. Common practice, no source. */
const clause =
  /^(?:and|but|because|so|then|now|i|i'm|i've|we|we're|it's|it'll|it (?:is|was|has|had|will|can|does|did|just|only|goes|went|looks?|looked|takes|took|dries|dried|comes|came|turns|turned|smells?|smelled|feels?|felt|needs?|needed|gets?|got|makes|made|really|still|kind|kinda|already|always|never)|you|you're|this is|that's|there's|here)\b/
const holdsOn =
  /^(?:and|but|so|because|cause|that|when|if|as|before|after|until|what|how|where|while|than|like|of|to|for|with|on|in|at|by|from|make|let|the|a)$/

/** How one goes on to something else in speech without full stops. Common practice, no source. */
const goesOn =
  /^(?:so (?:now|next|then|i|i'm|i've|we|we're|we've|the|that|that's|this|it's|let's|here|here's|after|once|for|with|when|while|before|all|on|today|what)|now (?:i|we|it|that|for|the|we're|i'm|it's|let's|time)|okay|ok|alright|all right|next|and then|then|after (?:that|this|the)|once|moving on|finally|first (?:i|we|thing|up|of)|let's|it's time|time to|i started|i'm going|i am going|we're going|i'm gonna|the next)\b/

const connected = '(?:okay |right |so |and |but |then |now |come )*'
const weekday =
  '(?:mon|tues|wednes|thurs|fri|satur|sun)day(?: (?:morning|afternoon|evening|night))?'
const timeOfDay =
  'morning|afternoon|evening|night|day|weekend|week|dinner ?time|lunch'
const count =
  '(?:an?|one|two|three|four|five|six|seven|a couple of|a few|couple of|few|forty five|twenty|thirty|ten|fifteen)'
/** Hardly ever said within a sentence. Common practice, no source. */
const turns =
  /^(?:okay so|ok so|alright|all right so|moving on|next up|next day|first up|first off|step (?:one|two|three|four|five|six|\d))\b/

/** A day or a time of it, or how long after: who begins with one goes on to something else. */
const dayOf = new RegExp(
  `^${connected}(?:(?:on |by |come )?(?:the |that )?${weekday}|(?:on |by |in |for )?(?:the|that) (?:next |following |same |first |second |third |last )?(?:${timeOfDay})|next (?:${timeOfDay})|(?:about )?${count} (?:minutes?|hours?|days?|nights?|weeks?) (?:later|after|on|goes by|go by)|overnight|tonight|tomorrow|day (?:one|two|three|four|five|six|seven|\\d))\\b`,
)

const openers: readonly (readonly [pattern: RegExp, strength: number])[] = [
  [/^step (?:number )?\w+/, 1.3],
  [
    /^(?:okay |ok |alright |all right |right |so |and |now )*(?:moving on|next up|next|on to|onto|time to|time for|it's time|it is time|after that|first things first|the first (?:thing|step|job)|first up|first off|to start|start(?:ing)? (?:off|by|with)|the next (?:step|thing|day|morning|job|stage)|day (?:one|two|three|four|five|six|\d)|next (?:day|morning)|let's (?:start|move|get|go|do)|last (?:but|thing|step|job)|the (?:last|final) (?:thing|step|job|stage)|(?:a )?(?:few|couple of) (?:days|hours|coats) later|the following)\b/,
    0.9,
  ],
  [dayOf, 0.9],
  [/^(?:okay|ok|alright|all right|right)\b/, 0.65],
  [
    /^(?:and |so |but |now |oh |okay )*(?:wait|back to (?:the|my|our|this|that|these|those)|so to the|(?:as )?for (?:the|these|those|this|my)|the (?:last|rest) of it|(?:i've|i'd|i) (?:left out|forgot|skipped|missed)|before i (?:did|do|forget)|(?:here's|here comes|this is) (?:the|my) (?:part|bit|moment|fun|scary|best)|(?:and )?that (?:leaves|left|brings|brought)|(?:i|we) (?:began|started|turned to|moved on)|meanwhile|in the meantime|same (?:again|thing|story|deal)|with (?:that|the \w+|all that) (?:done|fixed|sorted|off|dry|out of the way)|everything else|the rest|give it (?:an?|two|three|four|a few) (?:hour|hours|minutes|day|days)|once (?:it|that|they|everything)|(?:two|three|four|five|six|eight|ten|twelve) (?:hours?|days?) (?:on|i|we|of))\b/,
    0.6,
  ],
  [
    /^(?:and |so |but )?(?:finally|lastly|meanwhile|then|first|second|third|afterwards|once|when|after|with|here|back|for the|over|what about|at the (?:beginning|start)|while|before|only then)\b/,
    0.5,
  ],
  [/^(?:so |and )?(?:now|let's|today)\b/, 0.55],
  [/^(?:so|and then)\b/, 0.3],
]

/** Who says so turns to the hearers, not to another step. Common practice, no source. */
const aside =
  /^(?:okay |so |and |now |oh )*(?:(?:somebody|someone|people|everybody|everyone|a few of you|some of you|many of you|one (?:viewer|person|of you)|question|i've (?:had|been)|i (?:get|got)) .*\b(?:ask|asks|asked|asking|wrote|write|comment|comments|letters|wants? to know|question)|by the way|fun fact|speaking of|side note)\b/

function openingOf(text: string, pause: number, opens: boolean): number {
  if (aside.test(text)) return 0
  const said = openers.find(([pattern]) => pattern.test(text))?.[1] ?? 0
  const silence = pause > 8 ? 0.8 : pause > 3 ? 0.5 : pause > 1.4 ? 0.3 : 0
  return said + silence + (opens ? 0.1 : 0)
}
