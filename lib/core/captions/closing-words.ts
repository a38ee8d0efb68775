import type { Utterance } from '#core/captions/utterances'

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
export function closingOf(
  { at, text }: Utterance,
  utterances: readonly Utterance[],
): number {
  const total = utterances.at(-1)?.end ?? 0
  if (at < total * 0.6) return 0
  return closings.find(([pattern]) => pattern.test(text))?.[1] ?? 0
}
