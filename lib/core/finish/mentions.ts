/**
 * Whether a text says something and does not deny it: `rinsed twice` says so of rinsing, `not rinsed yet` does not.
 *
 * A denial is a no, not, never or without, or a word for something still to do, up to three words before.
 *
 * @param words a pattern of whole words, lower case
 */
export function mentions(text: string | undefined, words: RegExp): boolean {
  if (text === undefined) return false
  const found = new RegExp(`\\b(?:${words.source})\\b`, 'g')
  const lower = text.toLowerCase()
  for (const match of lower.matchAll(found)) {
    const sentence =
      lower
        .slice(0, match.index)
        .split(/[.;:!?]/)
        .at(-1) ?? ''
    const denied =
      /\b(?:no|not|never|without|free of|un|forgot(?: to)?|need(?:s|ed)?(?: to)?|must|should|to ?do|to|before)\s+(?:[\w’'-]+\s+){0,2}$/
    if (!denied.test(sentence)) return true
  }
  return false
}
