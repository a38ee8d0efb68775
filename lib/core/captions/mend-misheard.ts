import type { SpokenWord } from '#core/captions/spoken-words'

/**
 * Words as a machine wrote them down, with those of the trade mended that it split or misheard: "shell lack", "de glosser",
 * "top code", "one twenty great". Words that are joined keep the time from the first to the last of them.
 *
 * @param names of products: their words are listened for as well
 */
export function mendMisheard(
  words: readonly SpokenWord[],
  names: readonly string[] = [],
): readonly SpokenWord[] {
  const own = names.flatMap((name) => name.toLowerCase().split(/[^\p{L}]+/u))
  const known = new Map<string, string[]>()
  for (const word of new Set([
    ...splitWords,
    ...own.filter((word) => word.length >= 5),
  ])) {
    const letter = word.charAt(0)
    known.set(letter, [...(known.get(letter) ?? []), word])
  }
  const texts = words.map((word) => word.text)
  const mended: SpokenWord[] = []
  for (let index = 0; index < words.length; index += 1) {
    const word = words[index]
    if (word === undefined) break
    const joined = joinedAt(texts, index, known)
    const last = words[index + (joined?.words ?? 1) - 1] ?? word
    const text =
      joined?.text ??
      homophones[word.text] ??
      inContext(texts, index) ??
      word.text
    mended.push({ ...word, text, end: last.end })
    index += (joined?.words ?? 1) - 1
  }
  return mended
}

/** Written so by machines where the trade's word is meant, and hardly ever otherwise. Common practice, no source. */
const homophones: Readonly<Record<string, string>> = {
  nobs: 'knobs',
  nob: 'knob',
  jell: 'gel',
  wacks: 'wax',
  polly: 'poly',
  shellack: 'shellac',
  varnis: 'varnish',
  primmer: 'primer',
  enamle: 'enamel',
  lacker: 'lacquer',
  laquer: 'lacquer',
  draws: 'drawers',
  handels: 'handles',
}

/** Words that only those beside them show to be misheard: what stands before, what was heard, what stands after, what is meant. */
const misheard: readonly (readonly [
  before: RegExp | undefined,
  heard: RegExp,
  after: RegExp | undefined,
  meant: string,
])[] = [
  [
    /^(?:top|base|first|second|third|final|last|another|one|two|clear|seal|next|wash)$/,
    /^(?:code|codes|cote|coats?e|court)$/,
    undefined,
    'coat',
  ],
  [
    /^(?:\d{2,4}|twenty|forty|fifty|sixty|eighty|hundred)$/,
    /^(?:great|greet|grid|gritt|grip|greats)$/,
    undefined,
    'grit',
  ],
  [
    undefined,
    /^draw$/,
    /^(?:fronts?|front's|runners?|liners?|pulls?)$/,
    'drawer',
  ],
  [
    /^(?:the|some|these|those|new|old|all|draw|drawer|brass)$/,
    /^poles$/,
    /^(?:off|on|back|first|and|are|from|out)$/,
    'pulls',
  ],
  [/^(?:wood|this|a|the|some|water|based)$/, /^die$/, undefined, 'dye'],
  [/^(?:top|clear|the|matt|matte|satin|of)$/, /^vanish$/, undefined, 'varnish'],
  [
    /^(?:danish|tung|teak|linseed|hardwax)$/,
    /^(?:oils|all|oyl)$/,
    undefined,
    'oil',
  ],
  [/^(?:sand|fine|brown|with|some)$/, /^(?:pepper)$/, undefined, 'paper'],
]

function inContext(
  texts: readonly string[],
  index: number,
): string | undefined {
  const heard = texts[index] ?? ''
  const before = texts[index - 1] ?? ''
  const after = texts[index + 1] ?? ''
  return misheard.find(
    ([left, middle, right]) =>
      middle.test(heard) &&
      (left === undefined || left.test(before)) &&
      (right === undefined || right.test(after)),
  )?.[3]
}

/** A word that two or three words give when they are put together, give or take a letter or two. */
function joinedAt(
  texts: readonly string[],
  index: number,
  known: ReadonlyMap<string, readonly string[]>,
): { readonly text: string; readonly words: number } | undefined {
  for (const count of [2, 3]) {
    const parts = texts.slice(index, index + count)
    if (parts.length < count) continue
    const joined = parts.join('')
    const [best] = (known.get(joined.charAt(0)) ?? [])
      .filter((word) => !parts.includes(word))
      .flatMap((word) => {
        const slack = slackOf(word, parts)
        if (Math.abs(word.length - joined.length) > slack) return []
        const distance = editDistance(joined, word)
        return distance <= slack ? [{ word, distance }] : []
      })
      .sort((one, other) => one.distance - other.distance)
    if (best !== undefined) return { text: best.word, words: count }
  }
  return undefined
}

/** Machines split words at what they know, so a short word must be whole, and a long one may have been bent. */
function slackOf(word: string, parts: readonly string[]): number {
  if (word.length < 7) return 0
  return parts.some((part) => everyday.test(part)) ? 1 : 2
}

const everyday =
  /^(?:it|is|and|a|an|to|i|you|the|that|of|on|so|as|at|be|he|we|they|or|my|with)$/

/** Words that are split, since none but the trade says them. Common practice, no source. */
const splitWords: readonly string[] = [
  'shellac',
  'deglosser',
  'deglossing',
  'degreaser',
  'dewaxed',
  'denatured',
  'undercoat',
  'undercoater',
  'eggshell',
  'satinwood',
  'polyurethane',
  'polycrylic',
  'lacquer',
  'varnish',
  'sandpaper',
  'orbital',
  'stripper',
  'stripping',
  'scraper',
  'conditioner',
  'escutcheon',
  'beeswax',
  'woodfiller',
  'limewash',
  'whitewash',
  'washcoat',
  'distress',
  'distressing',
  'stencil',
  'decoupage',
  'neutralise',
  'neutralize',
  'reassemble',
]

/** Letters to add, drop or change to make one word of the other (Levenshtein). */
function editDistance(one: string, other: string): number {
  let row = Array.from({ length: other.length + 1 }, (_, i) => i)
  for (let i = 1; i <= one.length; i += 1) {
    const next = [i]
    for (let j = 1; j <= other.length; j += 1) {
      next.push(
        Math.min(
          (row[j] ?? 0) + 1,
          (next[j - 1] ?? 0) + 1,
          (row[j - 1] ?? 0) + (one[i - 1] === other[j - 1] ? 0 : 1),
        ),
      )
    }
    row = next
  }
  return row[other.length] ?? 0
}
